import { z } from "zod";
import type { WarningCode } from "../errors.ts";

/** Parts that many results share. */

/** A figure that could not be measured is null, never a harmless number. NaN and the infinities are refused by `z.number`. */
export const figure = z.number().nullable();

/** Three numbers that belong together; the name of the field says which. */
export const triple = z.tuple([z.number(), z.number(), z.number()]);

/** Figures of the bands r, g, b of the soft mix. */
export const band = z.tuple([figure, figure, figure]);

export const point = z
  .tuple([z.number(), z.number()])
  .describe("x right, y down, pixels of the upright frame; (0, 0) is the centre of the top-left");

export const box = z
  .tuple([z.number(), z.number(), z.number(), z.number()])
  .describe("x, y, width, height, pixels of the upright frame");

/** The ends of an interval. */
export const interval = z.tuple([z.number(), z.number()]);

/** A 90 % range with its middle: low, mid, high. */
export const triplet = z.tuple([z.number(), z.number(), z.number()]);

/** The same with its parts named. */
export const range = z.object({ low: z.number(), mid: z.number(), high: z.number() });

/** Codes may be added, so a reader of results must expect others than it knows. */
const warningCode = z.string() as z.ZodType<WarningCode>;

export const warning = z.object({ code: warningCode, message: z.string() });

export const warnings = z
  .array(warning)
  .describe("what makes the figures poorer than they could be");

export const labD50 = triple.describe("CIELAB D50, 2 degree");

/** Leave-one-out error of the patches of a card, dE00. */
export const leaveOneOut = z
  .object({ mean: z.number(), p95: z.number(), max: z.number() })
  .nullable()
  .describe("dE00 of patches left out of the fit; null where the card itself was never measured");
