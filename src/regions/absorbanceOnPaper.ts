import { BRADFORD } from "../colour/adapt.ts";
import { labToXyzD50 } from "../colour/lab.ts";
import type { Triple } from "../numeric/triple.ts";
import { multiply3Vector } from "../numeric/matrix3.ts";

/** Darkest band value, relative to the paper's, that is told from black: optical density 2.5. */
const LEAST_RATIO = 10 ** -2.5;

/**
 * How much of the paper's light an ink takes in three broad bands, long to short waves.
 * The bands are the sharpened cone channels of the Bradford matrix: narrower than X, Y, Z, and positive where linear
 * sRGB of a strong ink turns negative.
 * @param lab CIELAB D50 of the printed area.
 * @param paper CIELAB D50 of the bare paper.
 * @returns -log10 of the ratio to the paper in the red, green and blue band. Negative where lighter than the paper.
 */
export function absorbanceOnPaper(lab: Triple, paper: Triple): Triple {
  const ink = multiply3Vector(BRADFORD, labToXyzD50(lab));
  const white = multiply3Vector(BRADFORD, labToXyzD50(paper));
  const absorbance = (c: number): number => -Math.log10(Math.max(LEAST_RATIO, ink[c] / white[c]));
  return [absorbance(0), absorbance(1), absorbance(2)];
}
