import type { z } from "zod";

type DeepReadonly<T> = T extends object ? { readonly [K in keyof T]: DeepReadonly<T[K]> } : T;

/** The values that a schema describes, readonly through and through. */
export type ReadonlyOf<Schema extends z.ZodType> = DeepReadonly<z.infer<Schema>>;
