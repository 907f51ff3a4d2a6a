import { z } from "zod";
import { box, triple, warnings } from "../results/parts.ts";
import { refusedPhoto } from "../results/refusedPhoto.ts";

/**
 * What the store of a record may answer in place of measuring. A kept file of another form, from another version or an
 * accident, is measured anew. Fields that a later version adds pass through.
 */

/** A measured figure: NaN where nothing could be measured, which the store keeps as it is. */
const measured = z.custom<number>((value) => typeof value === "number", "expected a number or NaN");
const bands = z.tuple([measured, measured, measured]);

const refused = refusedPhoto.nullable();

/** Of `surveyOf`. */
export const keptSurvey = z.looseObject({
  paperLab: triple.nullable(),
  inks: z.array(
    z.looseObject({
      id: z.string(),
      kind: z.enum(["ink", "overprint", "black"]),
      lab: triple.nullable(),
      areaCm2: z.number(),
    }),
  ),
  warnings,
});

const jarReading = z.looseObject({
  file: z.string(),
  absorbancePerCm: bands,
  absorbanceSigma: bands,
  displayAbsorbancePerCm: bands,
  attenuationWidePerCm: bands,
  attenuationNarrowPerCm: bands,
  turbidityIndexPerCm: measured,
  turbidityIndexSigma: measured,
  turbidityBeyondRange: z.boolean(),
  turbidityFnu: measured.nullable(),
  turbidityFnuSigma: measured.nullable(),
  pathCm: z.number(),
  tone: z.looseObject({
    kind: z.enum(["srgb", "fitted", "assumed"]),
    amplitude: z.number(),
    gamma: z.number(),
    offset: z.number(),
    worstGrey: measured,
  }),
  warnings,
});

/** Of `readBath`. */
export const keptJar = z.looseObject({ reading: jarReading.nullable(), refused, warnings });

const spot = z.looseObject({ lab: triple, boxPixels: box, sigmaDeltaE00: measured });

const blotterReading = z.looseObject({
  deltaE: z.number(),
  deltaE00: z.number(),
  stainingRating: z.number(),
  stainingGrade: z.string(),
  absorbance: bands,
  verdict: z.enum(["bleeds", "doubtful", "fast"]),
  control: spot,
  spot,
});

/** Of `gradeBlot`. */
export const keptBlot = z.looseObject({ reading: blotterReading.nullable(), refused });
