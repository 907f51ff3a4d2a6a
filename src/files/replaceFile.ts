import { rename } from "node:fs/promises";
import { putWhole } from "./putWhole.ts";

/** Writes a file, whole or not at all, over one of that name where there is one: see {@link putWhole}. */
export function replaceFile(path: string, content: string | Uint8Array): Promise<void> {
  return putWhole(path, content, rename);
}
