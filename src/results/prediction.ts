import { z } from "zod";
import { figure, range } from "./parts.ts";
import type { ReadonlyOf } from "./readonlyOf.ts";

const checkedInk = z.object({
  id: z.string(),
  predicted: range.nullable(),
  modelDeltaE00: figure.describe(
    "middle of the prediction by the model alone: what the bench learns against; null: not predicted",
  ),
  measured: figure.describe("ink part of the measured change, dE00"),
  measuredLow: figure.describe("95 % interval"),
  measuredHigh: figure,
  floorDeltaE00: figure,
  verdict: z
    .enum(["agrees", "contradicted", "too-wide-to-test"])
    .nullable()
    .describe("null where prediction or measurement is missing"),
  agrees: z.boolean().nullable().describe("the same as yes or no; null where nothing was tested"),
});

/**
 * `agrees`: the predicted range is narrower than the limit and holds what was measured. `contradicted`: the two ranges don't meet.
 * `too-wide-to-test`: they meet, but the one or the other is too wide to call that agreement.
 */
export type PredictionVerdict = NonNullable<CheckedInk["verdict"]>;

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
  agreeing: z
    .number()
    .describe("inks that agree, of those that have both a prediction and a measurement"),
  compared: z.number().describe("inks that have both"),
  teaches: z
    .array(finishedInk)
    .describe("what this treatment teaches the bench: only what is far enough above its own doubt"),
  taught: z.array(z.string()).describe("ids of those inks"),
});

/** The prediction beside the washed, dry cover. */
export type PredictionCheck = ReadonlyOf<typeof prediction>;
