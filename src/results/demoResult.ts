import { z } from "zod";
import { compareResult } from "./compareResult.ts";
import { prediction } from "./prediction.ts";
import type { ReadonlyOf } from "./readonlyOf.ts";

const areaTruth = z.object({
  deltaE00: z.number(),
  paperPartDeltaE00: z.number(),
  inkPartDeltaE00: z.number(),
});

/** What the script that drew the sample pictures knows of them. */
export const sampleTruth = z.object({
  paper: areaTruth,
  inks: z.array(areaTruth.extend({ id: z.string() })),
});

export type SampleTruth = ReadonlyOf<typeof sampleTruth>;

/** The object printed by `demo --json`. */
export const demoResult = z.object({
  schema: z.literal("lastrinse.demo"),
  version: z.literal(1),
  compare: compareResult,
  prediction: prediction.nullable(),
  truth: sampleTruth,
});

export type DemoResult = ReadonlyOf<typeof demoResult>;
