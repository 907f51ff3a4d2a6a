import { z } from "zod";
import { figure, point } from "./parts.ts";
import type { ReadonlyOf } from "./readonlyOf.ts";

/** The file plates.json: where on the sheet each printing ink lost how much. */
export const plateTiles = z.object({
  schema: z.literal("lastrinse.plate-tiles"),
  version: z.literal(1),
  tileMm: z.number(),
  originPixels: point.describe("top-left corner of the first tile in the before scan"),
  pixelsPerMm: z.number(),
  columns: z.number(),
  rows: z.number(),
  plates: z
    .record(z.string(), z.array(figure))
    .describe(
      "share lost, 0..1, row by row; null where the tile has too little of the plate, or where nothing of it is claimed or open",
    ),
});

export type PlateTiles = ReadonlyOf<typeof plateTiles>;
