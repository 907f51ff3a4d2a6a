import { throughHomography } from "./frame.ts";
import { mapPoint } from "./mapPoint.ts";
import type { Registration } from "./registration.ts";

/**
 * How far the map may be trusted at a place of the before frame (full pixels): 0..2, trusted above 0.8. Linear between nodes.
 * @returns NaN off the sheet by more than a node's spacing, and where the after frame doesn't show the place.
 */
export function trustAt(registration: Registration, x: number, y: number): number {
  const [u, v] = mapPoint(registration, x, y);
  const { widthPixels, heightPixels } = registration.after;
  const shown = u >= -0.5 && v >= -0.5 && u <= widthPixels - 0.5 && v <= heightPixels - 0.5;
  return shown
    ? nodeTrustAt(registration, ...throughHomography(registration.before.toMm, x, y))
    : NaN;
}

/** The same by place in mm of the before frame, and without regard to the after frame. */
export function nodeTrustAt(
  { nodes, trust, onSheet }: Pick<Registration, "nodes" | "trust" | "onSheet">,
  xMm: number,
  yMm: number,
): number {
  const c = (xMm - nodes.left) / nodes.spacing;
  const r = (yMm - nodes.top) / nodes.spacing;
  const c0 = Math.floor(c);
  const r0 = Math.floor(r);
  let sum = 0;
  let weights = 0;
  // Nodes off the sheet have no say, and their weight goes to the others.
  for (let k = 0; k < 4; k++) {
    const column = c0 + (k & 1);
    const row = r0 + (k >> 1);
    if (column < 0 || row < 0 || column >= nodes.columns || row >= nodes.rows) continue;
    const node = row * nodes.columns + column;
    const weight = onSheet[node] * (1 - Math.abs(c - column)) * (1 - Math.abs(r - row));
    sum += weight * trust[node];
    weights += weight;
  }
  return weights > 0 ? sum / weights : NaN;
}
