import { z } from "zod";
import type { ReadonlyOf } from "./readonlyOf.ts";

/** The object printed by `report --json`. */
export const reportWritten = z.object({
  schema: z.literal("lastrinse.report"),
  version: z.literal(1),
  kind: z.enum(["interim", "final"]),
  files: z.array(z.string()),
});

export type ReportWritten = ReadonlyOf<typeof reportWritten>;
