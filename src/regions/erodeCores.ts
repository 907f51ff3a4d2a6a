import { farFrom } from "../grid/farFrom.ts";
import type { Grid } from "../grid/grid.ts";

/** Distance from every label boundary within which a cell may hold light or ink of its neighbour. */
export const CORE_MM = 1;

/**
 * The cells of each region that lie at least 1 mm inside it and are fit for use: the only ones that enter a mean.
 * @param labels 0 = not measured (also beyond the sheet's edge, in tears and losses); its border counts as boundary, and
 * so does the frame.
 * @param unfit 1 where a cell must not be used by itself: on an edge, off its label's colour.
 * @param strangers 1 where a piece of another colour was folded in: kept clear of by the same distance.
 * @returns The label on core cells, 0 elsewhere.
 */
export function erodeCores(
  labels: Uint8Array,
  { width, height, mmPerCell }: Omit<Grid, "stepX" | "stepY">,
  unfit: Uint8Array,
  strangers: Uint8Array,
): Uint8Array {
  const boundary = new Uint8Array(labels.length);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const i = y * width + x;
      const label = labels[i];
      const stranger = strangers[i];
      const inside =
        x > 0 &&
        x < width - 1 &&
        y > 0 &&
        y < height - 1 &&
        labels[i - 1] === label &&
        strangers[i - 1] === stranger &&
        labels[i + 1] === label &&
        strangers[i + 1] === stranger &&
        labels[i - width] === label &&
        strangers[i - width] === stranger &&
        labels[i + width] === label &&
        strangers[i + width] === stranger;
      if (!inside || stranger === 1) boundary[i] = 1;
    }
  // The centre of a boundary cell lies half a cell inside the boundary.
  const far = farFrom(boundary, width, height, Math.max(0.5, CORE_MM / mmPerCell - 0.5));
  const cores = new Uint8Array(labels.length);
  for (let i = 0; i < cores.length; i++) if (far[i] === 1 && unfit[i] === 0) cores[i] = labels[i];
  return cores;
}
