import type { TileMeasurements } from "./measureTiles.ts";
import type { NodeField } from "./nodeField.ts";
import { plateStencils } from "./plateStencils.ts";

/** Pull of a node towards its smooth prediction, against an information of at most 1 a direction. */
const STIFFNESS = 0.05;
const FIRST_SWEEPS = 120;
const ROUNDS = 3;
const SWEEPS_A_ROUND = 80;
/** No node moves farther in a sweep: a four-hundredth of a pixel at 600 dpi. */
const SETTLED_MM = 1e-4;

export interface RelaxedNodes {
  readonly field: NodeField;
  /** Trace of each node's information after outliers lost theirs, 0..2. */
  readonly trust: Float64Array;
  /** That information: the symmetric matrix [[xx, xy], [xy, yy]] of each node. */
  readonly information: NodeInformation;
}

/** How much each node's own measurement tells about x, y and both together; eigenvalues 0..1. */
export interface NodeInformation {
  readonly xx: Float64Array;
  readonly xy: Float64Array;
  readonly yy: Float64Array;
}

/**
 * The smooth field that best explains the measurements: each node settles between its own measurement, as far as that has
 * information in a direction, and what its neighbours predict (a thin plate; near the border a membrane). Measurements that
 * stand off lose weight by Cauchy's function, squared.
 * @param toleranceMm Half of it is the scale of the reweighting.
 */
export function relaxNodes(
  start: NodeField,
  measured: Pick<TileMeasurements, "dx" | "dy" | "xx" | "xy" | "yy">,
  toleranceMm: number,
): RelaxedNodes {
  const { width, height } = start;
  const count = width * height;
  const dx = start.dx.slice();
  const dy = start.dy.slice();
  // What the neighbours predicted when a node was last settled.
  const smoothX = new Float64Array(count);
  const smoothY = new Float64Array(count);
  const weight = new Float64Array(count).fill(1);

  const plate = plateStencils(width, height);
  const predict = (i: number): void => {
    let x = 0;
    let y = 0;
    for (let k = plate.starts[i]; k < plate.starts[i + 1]; k++) {
      x += plate.weights[k] * dx[plate.nodes[k]];
      y += plate.weights[k] * dy[plate.nodes[k]];
    }
    smoothX[i] = x;
    smoothY[i] = y;
  };

  /** Solves (W + stiffness I) x = W m + stiffness t for x - t; returns how far the node moved, the larger axis. */
  const settle = (i: number): number => {
    predict(i);
    const w = weight[i];
    const xx = w * measured.xx[i];
    const xy = w * measured.xy[i];
    const yy = w * measured.yy[i];
    const ex = measured.dx[i] - smoothX[i];
    const ey = measured.dy[i] - smoothY[i];
    const bx = xx * ex + xy * ey;
    const by = xy * ex + yy * ey;
    const determinant = (xx + STIFFNESS) * (yy + STIFFNESS) - xy * xy;
    const x = smoothX[i] + (bx * (yy + STIFFNESS) - by * xy) / determinant;
    const y = smoothY[i] + (by * (xx + STIFFNESS) - bx * xy) / determinant;
    const moved = Math.max(Math.abs(x - dx[i]), Math.abs(y - dy[i]));
    dx[i] = x;
    dy[i] = y;
    return moved;
  };

  const sweep = (sweeps: number): void => {
    let farthest = Infinity;
    for (let s = 0; s < sweeps && farthest > SETTLED_MM; s++) {
      farthest = 0;
      if (s % 2 === 0) for (let i = 0; i < count; i++) farthest = Math.max(farthest, settle(i));
      else for (let i = count - 1; i >= 0; i--) farthest = Math.max(farthest, settle(i));
    }
  };

  /** Cauchy's weight, squared, of a measurement that stands off (x, y), as far as it has information there. */
  const cauchy = (i: number, x: ArrayLike<number>, y: ArrayLike<number>, scale: number): number => {
    const ex = measured.dx[i] - x[i];
    const ey = measured.dy[i] - y[i];
    const q =
      Math.hypot(
        measured.xx[i] * ex + measured.xy[i] * ey,
        measured.xy[i] * ex + measured.yy[i] * ey,
      ) / scale;
    return 1 / (1 + q * q) ** 2;
  };

  sweep(FIRST_SWEEPS);
  for (let round = 0; round < ROUNDS; round++) {
    for (let i = 0; i < count; i++) weight[i] = cauchy(i, dx, dy, toleranceMm / 2);
    sweep(SWEEPS_A_ROUND);
  }
  // A lone tile with full information bends the field to itself; only its neighbours can tell that it is off.
  const kept = weight.map((w, i) => Math.min(w, cauchy(i, smoothX, smoothY, toleranceMm)));
  const information = {
    xx: kept.map((w, i) => w * measured.xx[i]),
    xy: kept.map((w, i) => w * measured.xy[i]),
    yy: kept.map((w, i) => w * measured.yy[i]),
  };
  const trust = kept.map((w, i) => w * (measured.xx[i] + measured.yy[i]));
  return { field: { ...start, dx, dy }, trust, information };
}
