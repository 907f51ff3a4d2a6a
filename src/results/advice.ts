import { z } from "zod";
import { figure, range, triplet, warnings } from "./parts.ts";
import type { ReadonlyOf } from "./readonlyOf.ts";

const limits = z.object({
  maxDeltaE00: z.number().describe("largest fade anybody accepts, dE00 per ink"),
  risk: z.number().describe("largest accepted probability of exceeding it"),
  minGain: z.number().describe("least gain of another bath, as a share of the soil removed so far"),
});

/** What the person at the tray accepts. */
export type Limits = ReadonlyOf<typeof limits>;

const verdict = z.enum([
  "continue",
  "stop",
  "rinse-first",
  "lift",
  "do-not-immerse",
  "not-decidable",
]);

export type Verdict = z.infer<typeof verdict>;

const sheetNow = z.enum([
  "not-in-water",
  "in-bath",
  "in-rinse",
  "drain-on-support",
  "blot-both-faces",
]);

/** Where the sheet belongs while the user reads on. */
export type SheetNow = z.infer<typeof sheetNow>;

const reason = z.object({
  code: z.string(),
  text: z.string(),
  value: figure,
  limit: figure,
  ink: z
    .string()
    .nullable()
    .describe("the ink it is about; null where it is about the bath or the record"),
});

export type Reason = ReadonlyOf<typeof reason>;

export const advice = z.object({
  verdict,
  headline: z.string().describe("the verdict in words, as it stands in this very treatment"),
  sheetNow: sheetNow.describe("where the sheet belongs while the user reads on"),
  sheetText: z.string().describe("the same in words"),
  reasons: z.array(reason).describe("the one that binds first comes first"),
  limits,
  riskOfExceeding: z
    .record(z.string(), figure)
    .describe(
      "probability that the ink's total fade after one more bath exceeds the limit; null where it can't be said, and where the bath can't show the ink's loss: a reason says which",
    ),
  upperDeltaE00: z
    .record(z.string(), figure)
    .describe(
      "fade after one more bath that is exceeded in one treatment of twenty, dE00, of what can dissolve; null where it can't be said",
    ),
  notShown: z
    .array(z.string())
    .describe(
      "inks whose loss the bath may not show, because their colour can change where it stands",
    ),
  mustDo: z.array(z.string()),
  wouldChangeIt: z.array(z.string()),
});

/** What to do before the next bath, and why. */
export type Advice = ReadonlyOf<typeof advice>;

const inkClass = z.enum([
  "red",
  "orange",
  "yellow",
  "green",
  "blue",
  "violet",
  "pink",
  "brown",
  "black",
  "unknown",
]);

export type InkClass = z.infer<typeof inkClass>;

const modelDeltaE00 = z
  .number()
  .describe("by the model alone at the middle amount: what a bench factor is learned against");

const fadeResult = z.object({
  ...range.shape,
  modelDeltaE00,
  inkClass,
  stainedOnly: z
    .object({ ...range.shape, modelDeltaE00 })
    .nullable()
    .describe(
      "the same loss from the regions whose blotter stained; null where their area is not known",
    ),
});

/** Predicted fade of an ink by all baths together, dE00, 90 % range. */
export type FadeResult = ReadonlyOf<typeof fadeResult>;

export const fade = z
  .record(z.string(), fadeResult.nullable())
  .describe("dE00 by ink id, all baths together, 90 % range; null where it can't be predicted");

export const nextBath = z
  .record(z.string(), triplet)
  .nullable()
  .describe("peak absorbance per cm of soil and inks in the next bath, 90 % range");

/** The object printed by `advise --json`. */
export const adviceResult = z.object({
  schema: z.literal("lastrinse.advice"),
  version: z.literal(1),
  advice,
  fade,
  nextBath,
  baths: z.number().describe("baths recorded so far"),
  warnings,
});

export type AdviceResult = ReadonlyOf<typeof adviceResult>;
