import { z } from "zod";
import type { ErrorCode } from "../errors.ts";
import type { ReadonlyOf } from "./readonlyOf.ts";

export const refusedPhoto = z.object({
  code: z.string() as z.ZodType<ErrorCode>,
  message: z.string(),
  remedy: z.string(),
});

/** Why a photo gave no figure: its bath or test still counts. */
export type RefusedPhoto = ReadonlyOf<typeof refusedPhoto>;
