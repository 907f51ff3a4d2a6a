import { z } from "zod";
import type { ReadonlyOf } from "../results/readonlyOf.ts";

const coordinate = z.number().min(0);

/** The file of --plate-names: which printing inks a press has. Plates that it does not list are not there. */
export const plateNames = z.strictObject({
  schema: z.literal("lastrinse.plate-names"),
  version: z.literal(1),
  plates: z
    .array(
      z
        .strictObject({
          id: z
            .enum(["yellow", "red", "blue", "black"])
            .describe("the usual plate, or the one in whose stead a spot ink is printed"),
          name: z.string().trim().min(1).max(40).optional().describe("what the ink is called"),
          place: z
            .tuple([coordinate, coordinate])
            .optional()
            .describe("x, y: pixels of the before scan where this ink is solid"),
          lab: z
            .tuple([
              z.number().min(0).max(100),
              z.number().min(-150).max(150),
              z.number().min(-150).max(150),
            ])
            .optional()
            .describe("CIELAB D50 of its solid on this paper"),
        })
        .refine(({ place, lab }) => place === undefined || lab === undefined, {
          error: "a place or Lab, not both",
        }),
    )
    .min(1)
    .refine((plates) => new Set(plates.map(({ id }) => id)).size === plates.length, {
      error: "each plate once",
    }),
});

export type PlateNames = ReadonlyOf<typeof plateNames>;
