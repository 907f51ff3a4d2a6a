import { link } from "node:fs/promises";
import { errorCode } from "./errorCode.ts";
import { putWhole } from "./putWhole.ts";

/**
 * Writes a file that must not exist yet, whole or not at all: see {@link putWhole}.
 * @returns false where the name was taken; the file there is untouched.
 */
export async function createOnly(path: string, content: string | Uint8Array): Promise<boolean> {
  try {
    await putWhole(path, content, link);
    return true;
  } catch (error) {
    if (errorCode(error) === "EEXIST") return false;
    throw error;
  }
}
