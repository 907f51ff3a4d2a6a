import { z } from "zod";

/**
 * An event of a record as results print it. What each kind of event must say is checked where it is written and read; an event
 * of an older format is printed as it stands.
 */
export const printedEvent = z.object({
  schema: z.literal("lastrinse.event"),
  version: z.number(),
  id: z.string().describe("six digits"),
  kind: z.string(),
  at: z.string().describe("ISO 8601 with offset; never used for ordering"),
  program: z.string(),
  inputs: z.array(
    z.object({ role: z.string(), file: z.string(), bytes: z.number(), sha256: z.string() }),
  ),
  settings: z.record(z.string(), z.unknown()),
});
