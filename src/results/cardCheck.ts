import { z } from "zod";
import { labD50, leaveOneOut, point, warnings } from "./parts.ts";
import type { ReadonlyOf } from "./readonlyOf.ts";

/** The object printed by `card check --json`. Lab is CIELAB D50, 2 degree; differences are CIEDE2000. */
export const cardCheck = z.object({
  schema: z.literal("lastrinse.card-check"),
  version: z.literal(1),
  found: z.literal(true),
  card: z.string(),
  cornersPixels: z.array(point),
  patchCentresPixels: z.array(point).describe("as many as the card has patches"),
  matchResidual: z.number().describe("mean Lab residual of an affine colour fit of the patches"),
  model: z.string(),
  leaveOneOut,
  patches: z.array(
    z.object({
      name: z.string(),
      labReference: labD50,
      labMeasured: labD50,
      deltaE00: z.number(),
      dropped: z.boolean(),
    }),
  ),
  warnings,
});

export type CardCheck = ReadonlyOf<typeof cardCheck>;
