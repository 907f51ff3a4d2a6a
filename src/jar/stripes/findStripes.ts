import { solveCholesky } from "../../numeric/cholesky.ts";
import { median } from "../../numeric/statistics.ts";
import type { LightBox } from "../optics/lightBox.ts";

/** Where horizontal stripes lie, in pixels of the photo. */
export interface StripeGrid {
  /** Upper edge of a white stripe at column `x`; edges repeat every `period`. */
  readonly edgeY: number;
  /** Column that `edgeY` belongs to. */
  readonly x: number;
  /** Rise of the edges per column. */
  readonly tilt: number;
  readonly period: number;
  /** Share of the variation (trends apart) that stripes of that period explain, 0..1. */
  readonly explained: number;
}

/** Columns are read in this many groups, to see a tilt. */
const GROUPS = 8;

/** Periods tried, per share of the range on each side. */
const PERIOD_STEPS = 12;

const BASIS = 6;

/**
 * Finds period, phase and tilt of stripes in a box: least squares of constant, trend, first and third harmonic on the rows of
 * column groups, over a range of periods.
 * @param box At least one period high.
 * @param period Expected, pixels.
 * @param periodRange Smallest and largest period tried, as shares of `period`. Equal: the period is taken as given.
 * @returns null where the box is lower than a period or holds no variation at all.
 */
export function findStripes(
  box: LightBox,
  period: number,
  [shortest, longest]: readonly [number, number] = [1, 1],
): StripeGrid | null {
  if (box.height < period) return null;
  const groups = columnGroups(box);
  const search = (factor: number): Fit => fitAll(groups, box.height, factor * period);
  let best = search((shortest + longest) / 2);
  let factor = (shortest + longest) / 2;
  if (longest > shortest) {
    const step = (longest - shortest) / (2 * PERIOD_STEPS);
    const fits: Fit[] = [];
    for (let i = 0; i <= 2 * PERIOD_STEPS; i++) fits.push(search(shortest + i * step));
    let least = 0;
    fits.forEach((fit, i) => {
      if (fit.residual < fits[least].residual) least = i;
    });
    factor = shortest + least * step;
    if (least > 0 && least < 2 * PERIOD_STEPS) {
      const [a, b, c] = [fits[least - 1], fits[least], fits[least + 1]].map((f) => f.residual);
      const bend = a - 2 * b + c;
      if (bend > 0) factor += (0.5 * step * (a - c)) / bend;
    }
    best = search(factor);
  }
  if (!(best.total > 0)) return null;
  return gridOf(box, groups, best, factor * period);
}

interface Group {
  /** Middle column, from the left of the box. */
  readonly middle: number;
  readonly rows: Float64Array;
}

interface Fit {
  readonly residual: number;
  readonly total: number;
  /** Phase of the first harmonic of each group: row of a white stripe's middle, from the middle of the box. */
  readonly middles: readonly number[];
}

function columnGroups({ width, height, light }: LightBox): Group[] {
  const count = Math.min(GROUPS, width);
  return Array.from({ length: count }, (_, g) => {
    const from = Math.floor((g * width) / count);
    const to = Math.floor(((g + 1) * width) / count);
    const rows = new Float64Array(height);
    for (let y = 0; y < height; y++) {
      let sum = 0;
      for (let x = from; x < to; x++) {
        const i = y * width + x;
        sum += light[0][i] + light[1][i] + light[2][i];
      }
      rows[y] = sum / (to - from);
    }
    return { middle: (from + to - 1) / 2, rows };
  });
}

function fitAll(groups: readonly Group[], height: number, period: number): Fit {
  const basis = new Float64Array(BASIS * height);
  for (let y = 0; y < height; y++) {
    const t = y - (height - 1) / 2;
    const angle = (2 * Math.PI * t) / period;
    basis.set(
      [1, t / height, Math.cos(angle), Math.sin(angle), Math.cos(3 * angle), Math.sin(3 * angle)],
      BASIS * y,
    );
  }
  let residual = 0;
  let total = 0;
  const middles = groups.map(({ rows }) => {
    const trend = project(basis, rows, 2);
    const all = project(basis, rows, BASIS);
    total += trend.residual;
    residual += all.residual;
    return (Math.atan2(all.solution[3], all.solution[2]) * period) / (2 * Math.PI);
  });
  return { residual, total, middles };
}

/** Least squares on the first `n` columns of the basis: solution and residual sum of squares. */
function project(
  basis: Float64Array,
  rows: Float64Array,
  n: number,
): { solution: Float64Array; residual: number } {
  const A = new Float64Array(n * n);
  const b = new Float64Array(n);
  let squares = 0;
  for (let y = 0; y < rows.length; y++) {
    const at = BASIS * y;
    squares += rows[y] * rows[y];
    for (let i = 0; i < n; i++) {
      b[i] += basis[at + i] * rows[y];
      for (let j = 0; j <= i; j++) A[n * i + j] += basis[at + i] * basis[at + j];
    }
  }
  const solution = b.slice();
  if (!solveCholesky(A, solution)) return { solution: new Float64Array(n), residual: squares };
  let explained = 0;
  for (let i = 0; i < n; i++) explained += solution[i] * b[i];
  return { solution, residual: Math.max(0, squares - explained) };
}

/** One tilted grid through the groups: robust slope by the median of pairs (Theil 1950), phases unwrapped from left to right. */
function gridOf(box: LightBox, groups: readonly Group[], fit: Fit, period: number): StripeGrid {
  const edges: number[] = [];
  fit.middles.forEach((middle, g) => {
    const near = g === 0 ? middle : edges[g - 1];
    edges.push(middle - period * Math.round((middle - near) / period));
  });
  const slopes: number[] = [];
  for (let i = 0; i < groups.length; i++)
    for (let j = i + 1; j < groups.length; j++)
      slopes.push((edges[j] - edges[i]) / (groups[j].middle - groups[i].middle));
  const tilt = slopes.length === 0 ? 0 : median(slopes);
  const x = (box.width - 1) / 2;
  const middle = median(groups.map((group, g) => edges[g] + tilt * (x - group.middle)));
  return {
    edgeY: box.y + (box.height - 1) / 2 + middle - period / 4,
    x: box.x + x,
    tilt,
    period,
    explained: 1 - fit.residual / fit.total,
  };
}
