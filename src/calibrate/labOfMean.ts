import { xyzD50ToLab } from "../colour/lab.ts";
import type { Triple } from "../numeric/triple.ts";
import { multiply3Vector } from "../numeric/matrix3.ts";
import type { Correction } from "./correction.ts";
import { thinPlateAt } from "./thinPlateAt.ts";

/**
 * CIELAB D50 of an area from its mean tone-corrected linear colour (see `correctionTables`).
 * @param toneCorrectedMean R, G, B after the tone curves; means over pixels are taken here, where values are linear in light.
 * @returns L*, a*, b*; NaN in gives NaN out. Not clipped: L* may leave 0..100.
 */
export function labOfMean(correction: Correction, toneCorrectedMean: Triple): Triple {
  const [X, Y, Z] = multiply3Vector(correction.matrix, toneCorrectedMean);
  const { offset, plate } = correction;
  const lab = xyzD50ToLab([X + offset[0], Y + offset[1], Z + offset[2]]);
  return plate === null ? lab : thinPlateAt(plate, lab);
}
