import { z } from "zod";
import type { ReadonlyOf } from "./readonlyOf.ts";

/** The object printed with `--dry-run`: what would be written. */
export const dryRun = z.object({
  schema: z.literal("lastrinse.dry-run"),
  version: z.literal(1),
  folder: z.string().nullable(),
  files: z.array(z.string()),
});

export type DryRun = ReadonlyOf<typeof dryRun>;
