import { throughHomography } from "./sheetFrame.ts";
import { mapPoint } from "./mapPoint.ts";
import type { Registration } from "./registration.ts";

/** How good the map is at one place. */
export interface Certainty {
  /** 0..2, trusted above 0.8. Linear between nodes. */
  readonly trust: number;
  /** Standard deviation of the place along either axis, mm of the before frame; its square is linear between nodes. */
  readonly sigmaMm: number;
}

/** Of places the map knows nothing about. */
const NOTHING: Certainty = { trust: NaN, sigmaMm: NaN };

/**
 * How far the map may be trusted at a place of the before frame (full pixels).
 * @returns NaN off the sheet by more than a node's spacing, and where the after frame doesn't show the place.
 */
export function certaintyAt(registration: Registration, x: number, y: number): Certainty {
  const [u, v] = mapPoint(registration, x, y);
  const { widthPixels, heightPixels } = registration.after;
  const shown = u >= -0.5 && v >= -0.5 && u <= widthPixels - 0.5 && v <= heightPixels - 0.5;
  return shown
    ? nodeCertaintyAt(registration, ...throughHomography(registration.before.toMm, x, y))
    : NOTHING;
}

/** `trust` of `certaintyAt`. */
export function trustAt(registration: Registration, x: number, y: number): number {
  return certaintyAt(registration, x, y).trust;
}

/** The same by place in mm of the before frame, and without regard to the after frame. */
export function nodeCertaintyAt(
  { nodes, trust, sigmaMm, onSheet }: Pick<Registration, "nodes" | "trust" | "sigmaMm" | "onSheet">,
  xMm: number,
  yMm: number,
): Certainty {
  const c = (xMm - nodes.left) / nodes.mmPerCell;
  const r = (yMm - nodes.top) / nodes.mmPerCell;
  const c0 = Math.floor(c);
  const r0 = Math.floor(r);
  let sum = 0;
  let squares = 0;
  let weights = 0;
  // Nodes off the sheet have no say, and their weight goes to the others.
  for (let k = 0; k < 4; k++) {
    const column = c0 + (k & 1);
    const row = r0 + (k >> 1);
    if (column < 0 || row < 0 || column >= nodes.width || row >= nodes.height) continue;
    const node = row * nodes.width + column;
    const weight = onSheet[node] * (1 - Math.abs(c - column)) * (1 - Math.abs(r - row));
    sum += weight * trust[node];
    squares += weight * sigmaMm[node] ** 2;
    weights += weight;
  }
  return weights > 0 ? { trust: sum / weights, sigmaMm: Math.sqrt(squares / weights) } : NOTHING;
}
