import { z } from "zod";
import { advice, fade, nextBath } from "./advice.ts";
import { band, figure, interval, triplet, warnings } from "./parts.ts";
import type { ReadonlyOf } from "./readonlyOf.ts";

const shareWord = z.enum(["measured", "partly known", "not decidable"]);

export type ShareWord = z.infer<typeof shareWord>;

export const inkShare = z.object({
  possible: interval,
  likely: interval.nullable().describe("90 % range where at most one ink is unbounded"),
  condition: z.string(),
  word: shareWord,
  remedy: z
    .string()
    .nullable()
    .describe("what would make it better known; null where it is measured"),
});

/** Share of ink in the colour of one bath, as the result states it. */
export type InkShare = ReadonlyOf<typeof inkShare>;

export const components = z
  .record(z.string(), triplet)
  .nullable()
  .describe("peak absorbance per cm by ink id and soil");

const jarBath = z.object({
  file: z.string(),
  absorbancePerCm: band,
  absorbanceSigma: band,
  displayAbsorbancePerCm: band,
  attenuationWidePerCm: band,
  attenuationNarrowPerCm: band,
  turbidityIndexPerCm: figure,
  turbidityBeyondRange: z.boolean(),
  turbidityFnu: figure,
  inkShare: inkShare.nullable(),
  components,
  warnings,
});

/** One bath of the `jar` result. All per cm, decadic; bands r, g, b of the soft mix. null: not measurable. */
export type JarBath = ReadonlyOf<typeof jarBath>;

const turbidityTie = z.object({
  unit: z.enum(["FNU", "relative"]).describe("relative: own dilutions, no unit"),
  linear: z.number().describe("strength = linear x index + quadratic x index^2, index per cm"),
  quadratic: z.number(),
  points: z.array(
    z.object({
      strength: z.number(),
      indexPerCm: z.number(),
      residual: z.number().describe("fitted less given"),
    }),
  ),
  largestIndex: z.number().describe("of the strongest point: beyond it the tie says only more"),
});

/** The user's own dilution series, fitted. */
export type TurbidityTie = ReadonlyOf<typeof turbidityTie>;

/** The object printed by `jar --json`. */
export const jarResult = z.object({
  schema: z.literal("lastrinse.jar"),
  version: z.literal(1),
  baths: z.array(jarBath),
  turbidityTie: turbidityTie.nullable(),
  fade,
  nextBath,
  advice,
  warnings,
});

export type JarResult = ReadonlyOf<typeof jarResult>;
