import { z } from "zod";
import { warnings } from "./parts.ts";
import { printedEvent } from "./printedEvent.ts";
import type { ReadonlyOf } from "./readonlyOf.ts";

/** The object printed by `export --json`, and written by `demo` (there of a record that is whole, without the last two). */
export const exportResult = z.object({
  schema: z.literal("lastrinse.export"),
  version: z.literal(1),
  events: z.array(printedEvent).describe("in the order of their ids"),
  damaged: z
    .array(z.object({ file: z.string(), problem: z.string() }))
    .describe("files of the record that can't be used")
    .optional(),
  warnings: warnings.optional(),
});

export type ExportResult = ReadonlyOf<typeof exportResult>;
