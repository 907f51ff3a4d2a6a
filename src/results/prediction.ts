import { z } from "zod";
import { figure, range } from "./parts.ts";
import type { ReadonlyOf } from "./readonlyOf.ts";

const checkedInk = z.object({
  id: z.string(),
  predicted: range.nullable(),
  measured: figure.describe("ink part of the measured change, dE00"),
  measuredLow: figure.describe("95 % interval"),
  measuredHigh: figure,
  floorDeltaE00: figure,
  agrees: z
    .boolean()
    .nullable()
    .describe(
      "whether the measured interval and the predicted 90 % range meet; null: one is missing",
    ),
});

/** One ink: what the baths said it had lost, beside what the dry scan shows. */
export type CheckedInk = ReadonlyOf<typeof checkedInk>;

const finishedInk = z.object({
  day: z
    .string()
    .describe("ISO 8601 date of the treatment: covers of one day share one bath and one error"),
  inkClass: z.string(),
  modelDeltaE00: z
    .number()
    .describe("fade predicted by the model alone, before any bench factor, dE00"),
  measuredDeltaE00: z.number().describe("loss of ink by the after scan (ink part), dE00"),
  noiseDeltaE00: z.number().describe("the floor below which no change may be claimed, dE00"),
});

/** One ink of one finished treatment of this bench: what was predicted and what the dry scan showed. */
export type FinishedInk = ReadonlyOf<typeof finishedInk>;

export const prediction = z.object({
  inks: z.array(checkedInk),
  agreeing: z.number().describe("inks for which prediction and measurement meet"),
  compared: z.number().describe("inks that have both"),
  teaches: z.array(finishedInk).describe("what this treatment teaches the bench"),
});

/** The prediction beside the washed, dry cover. */
export type PredictionCheck = ReadonlyOf<typeof prediction>;
