import { z } from "zod";

const point = z.tuple([z.number(), z.number()]);

/** A name is kept as an id: in the report, in the result and on the command line. */
const name = z
  .string()
  .regex(
    /^[\p{L}\p{N}](?:[\p{L}\p{N} _-]{0,38}[\p{L}\p{N}])?$/u,
    "Expected a name of 1 to 40 letters, digits, spaces or hyphens",
  );

/** The name of what is already found: any text, looked up when the correction is applied. */
const known = z.string().min(1);

/** One step of the user's corrections; steps are replayed in the order of the file. Pixels are those of the before scan. */
const correction = z.discriminatedUnion("action", [
  z.strictObject({ action: z.literal("rename"), ink: known, to: name }),
  z.strictObject({ action: z.literal("merge"), inks: z.array(known).min(2), as: name.optional() }),
  z.strictObject({ action: z.literal("split"), seedPixels: point, as: name }),
  z.strictObject({ action: z.literal("exclude"), polygonPixels: z.array(point).min(3) }),
  z.strictObject({
    action: z.literal("kind"),
    ink: known,
    kind: z.enum(["ink", "overprint", "black"]),
  }),
]);

/** The file of `--inks`. */
export const inkCorrectionsSchema = z.strictObject({
  schema: z.literal("lastrinse.inks"),
  version: z.literal(1),
  corrections: z.array(correction),
});

export type InkCorrection = z.infer<typeof correction>;

/** The user's corrections, and the file they came from (for messages). */
export interface InkCorrections {
  readonly file: string;
  readonly steps: readonly InkCorrection[];
}
