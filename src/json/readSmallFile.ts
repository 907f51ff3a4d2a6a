import { readFile, stat } from "node:fs/promises";

/** Lists, tables and settings hold some kilobytes. */
export const LARGEST_SMALL_FILE_BYTES = 8 * 2 ** 20;

/**
 * Reads a file that should be small: never more than the limit, never from a device or a pipe, which may have no end.
 * @returns Its bytes.
 * @throws {Error} The system's own error, or one that says in words what was found instead.
 */
export async function readSmallFile(
  file: string,
  mostBytes = LARGEST_SMALL_FILE_BYTES,
): Promise<Buffer> {
  const found = await stat(file);
  if (!found.isFile())
    throw new Error(found.isDirectory() ? "it is a folder" : "it is a device or a pipe");
  if (found.size > mostBytes) throw new Error(`it is far too large (${String(found.size)} bytes)`);
  return readFile(file);
}
