import { z } from "zod";
import { advice } from "./advice.ts";
import { compareResult } from "./compareResult.ts";
import { band, box, figure, labD50, warnings } from "./parts.ts";
import { prediction } from "./prediction.ts";
import { printedEvent } from "./printedEvent.ts";
import type { ReadonlyOf } from "./readonlyOf.ts";
import { refusedPhoto } from "./refusedPhoto.ts";

const jarReading = z.object({
  file: z.string(),
  absorbancePerCm: band,
  absorbanceSigma: band,
  displayAbsorbancePerCm: band,
  attenuationWidePerCm: band,
  attenuationNarrowPerCm: band,
  turbidityIndexPerCm: figure,
  turbidityIndexSigma: figure,
  turbidityBeyondRange: z.boolean(),
  turbidityFnu: figure,
  turbidityFnuSigma: figure,
  pathCm: z.number().describe("passes x path through the liquid"),
  tone: z.object({
    kind: z.enum(["srgb", "fitted", "assumed"]),
    amplitude: z.number(),
    gamma: z.number(),
    offset: z.number(),
    worstGrey: figure,
  }),
  warnings,
});

const spot = z.object({ lab: labD50, boxPixels: box, sigmaDeltaE00: figure });

const blotterReading = z.object({
  deltaE: z.number(),
  deltaE00: z.number(),
  stainingRating: z.number(),
  stainingGrade: z.string().describe("half steps of ISO 105-A04, as common language"),
  absorbance: band,
  verdict: z.enum(["bleeds", "doubtful", "fast"]),
  spot,
  control: spot,
});

/** The object printed by every command that adds an event to a record; the fields after `event` go by its kind. */
export const eventAdded = z.object({
  schema: z.literal("lastrinse.event-added"),
  version: z.literal(1),
  event: printedEvent,
  survey: z
    .object({
      paperLab: labD50.nullable(),
      inks: z.array(
        z.object({
          id: z.string(),
          kind: z.enum(["ink", "overprint", "black"]),
          lab: labD50.nullable(),
          areaCm2: z.number(),
        }),
      ),
    })
    .describe("what a scan before washing shows")
    .optional(),
  reading: z
    .union([jarReading, blotterReading])
    .nullable()
    .describe("of a bath's jar photo or a blotter photo; null without a usable one")
    .optional(),
  result: z.enum(["bleeds", "doubtful", "fast", "untested"]).nullable().optional(),
  refused: refusedPhoto.nullable().optional(),
  advice: advice.optional(),
  compare: compareResult.optional(),
  check: prediction.nullable().optional(),
  warnings: warnings.optional(),
});

export type EventAdded = ReadonlyOf<typeof eventAdded>;
