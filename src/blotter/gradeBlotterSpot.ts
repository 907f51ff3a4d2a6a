import { ciede2000 } from "../colour/ciede2000.ts";
import type { GreyScaleGrade } from "../colour/greyScaleChange.ts";
import { greyScaleStaining } from "../colour/greyScaleStaining.ts";
import { labToXyzD50 } from "../colour/lab.ts";
import { SRGB_TO_XYZ_D50 } from "../colour/srgb.ts";
import type { Triple } from "../numeric/triple.ts";
import { invert3, multiply3Vector } from "../numeric/matrix3.ts";
import { softMix } from "../print/softMix.ts";

/** What a blotter test says of one ink. */
export interface BlotterGrade {
  /** CIELAB distance of the two spots. */
  readonly deltaE: number;
  readonly deltaE00: number;
  /** Rating and half-step grade for staining. */
  readonly stainingRating: number;
  readonly stainingGrade: GreyScaleGrade;
  /** Reflection absorbance of the spot over the control, decadic, bands r g b of the soft mix. NaN where the spot is out of gamut. */
  readonly absorbance: Triple;
  readonly verdict: BlotterVerdict;
}

export type BlotterVerdict = "bleeds" | "doubtful" | "fast";

const VERDICTS: Readonly<Record<GreyScaleGrade, BlotterVerdict>> = {
  "5": "fast",
  "4-5": "fast",
  "4": "doubtful",
  "3-4": "bleeds",
  "3": "bleeds",
  "2-3": "bleeds",
  "2": "bleeds",
  "1-2": "bleeds",
  "1": "bleeds",
};

const XYZ_TO_SRGB = invert3(SRGB_TO_XYZ_D50);

/**
 * Grades a blotter test: the wet spot blotted off an ink against a wet spot of the liquid alone on the same blotter. Wet against
 * wet only (or dry against dry): water itself darkens a blotter more than many a stain.
 * @param control CIELAB D50 of the spot of liquid alone.
 * @param spot CIELAB D50 of the spot blotted off the ink.
 * @returns `fast` at 4-5 and 5, `doubtful` at 4, `bleeds` below.
 * @throws {RangeError} A value is not finite: an unmeasured spot has no grade.
 * @see ISO 105-A04 for the rating. The verdicts are this tool's: a common language, not an ISO test.
 */
export function gradeBlotterSpot(control: Triple, spot: Triple): BlotterGrade {
  const { rating, grade } = greyScaleStaining(control, spot);
  if (grade === null)
    throw new RangeError(
      `Expected two Lab colours, received ${control.join()} and ${spot.join()}.`,
    );
  const white = multiply3Vector(XYZ_TO_SRGB, labToXyzD50(control));
  const stained = multiply3Vector(XYZ_TO_SRGB, labToXyzD50(spot));
  const mixed = softMix([stained[0] / white[0], stained[1] / white[1], stained[2] / white[2]]);
  return {
    deltaE: Math.hypot(spot[0] - control[0], spot[1] - control[1], spot[2] - control[2]),
    deltaE00: ciede2000(control, spot),
    stainingRating: rating,
    stainingGrade: grade,
    absorbance: [-Math.log10(mixed[0]), -Math.log10(mixed[1]), -Math.log10(mixed[2])],
    verdict: VERDICTS[grade],
  };
}
