import { z } from "zod";
import type { ErrorCode } from "../errors.ts";
import type { ReadonlyOf } from "./readonlyOf.ts";

/** Codes may be added. `internal` is a defect of the program, every other code something the user can mend. */
const errorCode = z.string() as z.ZodType<ErrorCode | "internal">;

/** The object printed by `--json` in place of a result where there is none. */
export const errorResult = z.object({
  schema: z.literal("lastrinse.error"),
  version: z.literal(1),
  error: z.object({
    code: errorCode,
    message: z.string(),
    remedy: z.string().describe("what to do about it"),
    input: z.string().nullable().describe("the file or option it is about"),
  }),
});

export type ErrorResult = ReadonlyOf<typeof errorResult>;
