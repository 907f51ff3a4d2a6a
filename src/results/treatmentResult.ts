import { z } from "zod";
import { advice, fade, nextBath } from "./advice.ts";
import { compareResult } from "./compareResult.ts";
import { components, inkShare } from "./jarResult.ts";
import { band, figure, triplet, warnings } from "./parts.ts";
import { prediction } from "./prediction.ts";
import type { ReadonlyOf } from "./readonlyOf.ts";
import { refusedPhoto } from "./refusedPhoto.ts";

const side = z.enum(["front", "back", "inside-front", "inside-back"]);
const settings = z.record(z.string(), z.unknown());

const bath = z.object({
  id: z.string(),
  at: z.string(),
  settings,
  hasPhoto: z.boolean(),
  jar: z
    .object({
      file: z.string(),
      absorbancePerCm: band,
      absorbanceSigma: band,
      turbidityIndexPerCm: figure,
      turbidityIndexSigma: figure,
      turbidityBeyondRange: z.boolean(),
      turbidityFnu: figure,
      turbidityFnuSigma: figure,
    })
    .nullable(),
  refused: refusedPhoto.nullable(),
  inkShare: inkShare.nullable(),
  components,
  fadeSoFar: z
    .record(z.string(), triplet.nullable())
    .describe(
      "predicted fade of all baths up to this one, by ink; null where it can't be predicted",
    ),
  warnings,
});

const blot = z.object({
  id: z.string(),
  at: z.string(),
  settings,
  result: z.enum(["bleeds", "doubtful", "fast", "untested"]).nullable(),
  hasPhoto: z.boolean(),
  refused: refusedPhoto.nullable(),
});

const comparison = z.object({
  side,
  stage: z.enum(["washed", "finished"]),
  at: z.string().describe("when the after scan was recorded"),
  result: compareResult.nullable().describe("null: no figure can be given; refused says why"),
  refused: refusedPhoto.nullable(),
});

/** What a report shows, as one object without pictures and events: the file result.json of `report`. */
export const treatmentResult = z.object({
  schema: z.literal("lastrinse.treatment"),
  version: z.literal(1),
  kind: z.enum(["interim", "final"]).describe("final once a washed, dry side was scanned"),
  title: z.string().nullable(),
  object: z.string().nullable(),
  program: z.string(),
  limits: advice.shape.limits,
  advice,
  fade,
  bench: z.record(
    z.string(),
    z.object({
      factor: z.number(),
      low: z.number(),
      high: z.number(),
      treatments: z.number(),
    }),
  ),
  nextBath,
  baths: z.array(bath),
  blots: z.array(blot),
  scannedBefore: z.array(side),
  scannedAfter: z.array(side),
  comparisons: z.array(comparison),
  prediction: prediction.nullable(),
  warnings,
  washedOn: z.string().nullable(),
});

export type TreatmentResult = ReadonlyOf<typeof treatmentResult>;
