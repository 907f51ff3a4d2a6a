import { z } from "zod";
import { figure } from "./parts.ts";
import type { ReadonlyOf } from "./readonlyOf.ts";

/** The object printed by `recipe --json`. null: not asked for. */
export const recipe = z.object({
  schema: z.literal("lastrinse.recipe"),
  version: z.literal(1),
  volumeMl: z.number(),
  temperatureC: z.number(),
  limewaterMl: z.number(),
  limewaterSharePercent: z.number(),
  limewaterMlLow: figure.describe(
    "where a pH was wanted: how little and how much limewater it may take, by the tolerance of the computed pH; else null",
  ),
  limewaterMlHigh: figure,
  calciumHydroxideGPerL: z.number(),
  calciumMgPerL: z.number(),
  ph: z.number(),
  phTolerance: z.number(),
  surfactantMgPerL: figure,
  surfactantMgPerLLow: figure,
  surfactantMgPerLHigh: figure,
  surfactantShareOfCmc: figure,
  surfactantShareOfCmcLow: figure,
  surfactantShareOfCmcHigh: figure,
  pickupMlPerG: z.number(),
  alkalineReserveMolPerKg: z.number(),
  alkalineReservePercentCaCO3: z.number(),
  shareOfIso9706: z.number(),
  rinses: figure,
  cautions: z.array(z.string()),
});

export type Recipe = ReadonlyOf<typeof recipe>;
