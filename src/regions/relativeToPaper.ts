import { labToXyzD50, xyzD50ToLab } from "../colour/lab.ts";
import type { Triple } from "../numeric/triple.ts";
import { WHITE_D50 } from "../colour/whites.ts";

/**
 * Media-relative CIELAB: the colour as it would look if the paper were the perfect white. A grey tint on yellowed paper
 * is yellowish in itself and neutral relative to its paper.
 * @param lab CIELAB D50.
 * @param paper CIELAB D50 of the bare paper; null leaves the colour as it is.
 * @see Media-relative colorimetry as in ICC.1, by scaling XYZ.
 */
export function relativeToPaper(lab: Triple, paper: Triple | null): Triple {
  if (paper === null) return lab;
  const xyz = labToXyzD50(lab);
  const white = labToXyzD50(paper);
  return xyzD50ToLab([
    (xyz[0] / white[0]) * WHITE_D50[0],
    (xyz[1] / white[1]) * WHITE_D50[1],
    (xyz[2] / white[2]) * WHITE_D50[2],
  ]);
}
