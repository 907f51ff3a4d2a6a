import type { LabImage } from "../grid/labImage.ts";
import { complement } from "../grid/complement.ts";
import { farFrom } from "../grid/farFrom.ts";
import { largestPiece } from "../grid/largestPiece.ts";

/** A shadow at the sheet's edge is a dark line at most this wide, darker than both its sides by 2 L* or more. */
const SHADOW_MM = 1.6;
const SHADOW_DEPTH = 2;

/** Takes the shadow line off the sheet's edge, in place: cells near the bed that are darker than what lies on both sides. */
export function peelShadow(image: LabImage, sheet: Uint8Array): void {
  const { width, height, mmPerCell, L } = image;
  const reach = Math.max(1, Math.round(SHADOW_MM / mmPerCell));
  const deep = farFrom(complement(sheet), width, height, SHADOW_MM / mmPerCell);
  const shadow: number[] = [];
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const i = y * width + x;
      if (sheet[i] === 0 || deep[i] === 1) continue;
      const isShadow = [
        [1, 0],
        [0, 1],
      ].some(([dx, dy]) => {
        let darker = 0;
        for (const sign of [-1, 1]) {
          let lightest = -Infinity;
          for (let k = 1; k <= 2 * reach; k++) {
            const u = x + sign * k * dx;
            const v = y + sign * k * dy;
            if (u < 0 || u >= width || v < 0 || v >= height) break;
            lightest = Math.max(lightest, L[v * width + u]);
          }
          if (lightest - L[i] >= SHADOW_DEPTH) darker++;
        }
        return darker === 2;
      });
      if (isShadow) shadow.push(i);
    }
  for (const i of shadow) sheet[i] = 0;
  const rest = largestPiece(sheet, width, height);
  if (rest !== null) sheet.set(rest);
}
