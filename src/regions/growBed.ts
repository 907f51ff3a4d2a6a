import type { LabImage } from "../grid/labImage.ts";
import { components } from "../grid/components.ts";
import { farFrom } from "../grid/farFrom.ts";
import { LEAST_TOLERANCE } from "./bedColour.ts";

/** The bed is followed only through gaps wider than twice this, so that it can't leak through a thin light spot. */
const GAP_MM = 0.6;
/** Upper bound of the colour distance from the bed up to which a cell may be bed. */
const MOST_TOLERANCE = 9;

/** Cells like the bed that hang together with the strips through gaps that are not too narrow. */
export function growBed(
  image: LabImage,
  valid: Uint8Array,
  where: Uint8Array,
  distance: Float32Array,
  tolerance: number,
): Uint8Array {
  const { width, height, mmPerCell } = image;
  const size = width * height;
  const unlike = new Uint8Array(size);
  for (let i = 0; i < size; i++) unlike[i] = valid[i] === 1 && distance[i] > tolerance ? 1 : 0;
  const gap = Math.max(1.01, GAP_MM / mmPerCell);
  const wide = farFrom(unlike, width, height, gap);
  for (let i = 0; i < size; i++) if (valid[i] === 0) wide[i] = 0;
  const { piece, cells } = components(wide, width, height);
  const reached = new Uint8Array(cells.length);
  for (let i = 0; i < size; i++) if (where[i] !== 0 && piece[i] >= 0) reached[piece[i]] = 1;
  const core = new Uint8Array(size);
  for (let i = 0; i < size; i++) if (piece[i] >= 0 && reached[piece[i]] === 1) core[i] = 1;
  const notNear = farFrom(core, width, height, gap + 0.5);
  const bed = new Uint8Array(size);
  for (let i = 0; i < size; i++)
    bed[i] = valid[i] === 1 && notNear[i] === 0 && unlike[i] === 0 ? 1 : 0;
  return bed;
}

/** The first valley in the distribution of colour distances from the bed. */
export function bedTolerance(distance: Float32Array, valid: Uint8Array): number {
  const step = 0.5;
  const counts = new Float64Array(Math.ceil((MOST_TOLERANCE + 4) / step));
  for (let i = 0; i < distance.length; i++) {
    const k = Math.floor(distance[i] / step);
    if (valid[i] === 1 && k < counts.length) counts[k]++;
  }
  const smooth = Array.from(
    counts,
    (_, k) => (counts[Math.max(0, k - 1)] + counts[k] + (counts[k + 1] ?? counts[k])) / 3,
  );
  let peak = 0;
  for (let k = 0; k * step <= LEAST_TOLERANCE; k++) if (smooth[k] > smooth[peak]) peak = k;
  let lowest = peak;
  for (let k = peak + 1; k * step <= MOST_TOLERANCE; k++) {
    if (smooth[k] < smooth[lowest]) lowest = k;
    else if (smooth[k] > 2 * smooth[lowest] && smooth[k] > 0.02 * smooth[peak]) break;
  }
  return Math.min(MOST_TOLERANCE, Math.max(LEAST_TOLERANCE, (lowest + 0.5) * step));
}
