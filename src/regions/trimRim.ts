import type { Triple } from "../numeric/triple.ts";
import type { LabImage } from "../grid/labImage.ts";
import { complement } from "../grid/complement.ts";
import { farFrom } from "../grid/farFrom.ts";

/**
 * Takes cells off the rim, in place, whose colour is nearer to the bed's than to that of the sheet a little further in: the
 * blocks of the search lay astride the sheet's edge.
 */
export function trimRim(image: LabImage, mask: Uint8Array, blockMm: number, bed: Triple): void {
  const { width, height, mmPerCell, L, a, b } = image;
  const outside = complement(mask);
  const inner = farFrom(outside, width, height, (2 * blockMm) / mmPerCell);
  const step = Math.round((3 * blockMm) / mmPerCell);
  const distance2 = (i: number, p: number, q: number, r: number): number =>
    (L[i] - p) ** 2 + (a[i] - q) ** 2 + (b[i] - r) ** 2;
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const i = y * width + x;
      if (mask[i] === 0 || inner[i] === 1) continue;
      let toSheet = Infinity;
      const compare = (j: number): void => {
        if (inner[j] === 1) toSheet = Math.min(toSheet, distance2(i, L[j], a[j], b[j]));
      };
      if (x >= step) compare(i - step);
      if (x + step < width) compare(i + step);
      if (y >= step) compare(i - step * width);
      if (y + step < height) compare(i + step * width);
      if (distance2(i, bed[0], bed[1], bed[2]) < toSheet) mask[i] = 0;
    }
}
