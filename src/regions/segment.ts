import type { Triple } from "../numeric/triple.ts";
import type { Folded } from "./foldPieces.ts";
import { foldPieces } from "./foldPieces.ts";
import type { LabImage } from "../grid/labImage.ts";
import { labelPixels } from "./labelPixels.ts";
import { majorityFilter } from "../grid/majorityFilter.ts";

/** Contiguous pieces below this are folded into what surrounds them (10 mm2). */
export const LEAST_PIECE_MM2 = 10;

/** A piece that was folded away counts as a stranger inside its surroundings from this size on; below, it is noise. */
const LEAST_STRANGER_MM2 = 1;

/**
 * Labels the cells of a sheet by the nearest of some colours and cleans the result: 3 x 3 majority, then pieces under
 * 10 mm2 folded into their surroundings.
 * @param image With sharpened edges.
 * @param mask 1 on the sheet.
 * @param colours CIELAB D50, at most 254.
 * @returns Label k + 1 for the k-th colour, 0 outside the mask.
 */
export function segment(image: LabImage, mask: Uint8Array, colours: readonly Triple[]): Folded {
  const { width, height } = image;
  const cellsOf = (mm2: number): number => Math.ceil(mm2 / image.mmPerCell ** 2);
  const filtered = majorityFilter(labelPixels(image, mask, colours), width, height);
  return foldPieces(filtered, width, height, cellsOf(LEAST_PIECE_MM2), cellsOf(LEAST_STRANGER_MM2));
}
