import type { Triple } from "../numeric/triple.ts";

/** The one D50 white of this product: X 0.96422, Y 1, Z 0.82521 (CIE 15, five decimals). 2 degree observer. */
export const WHITE_D50: Triple = [0.96422, 1, 0.82521];

/** XYZ of a white from its chromaticity, Y = 1. */
export function whiteFromChromaticity(x: number, y: number): Triple {
  return [x / y, 1, (1 - x - y) / y];
}

/** CIE standard illuminant D65, 2 degree, from xy 0.3127 0.3290. */
export const WHITE_D65: Triple = whiteFromChromaticity(0.3127, 0.329);

/** CIE standard illuminant C, 2 degree, from xy 0.31006 0.31616. */
export const WHITE_C: Triple = whiteFromChromaticity(0.31006, 0.31616);
