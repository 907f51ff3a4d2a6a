import { randomUUID } from "node:crypto";
import { open, unlink } from "node:fs/promises";
import { dirname, join } from "node:path";
import { setTimeout as wait } from "node:timers/promises";
import { errorCode } from "./errorCode.ts";

/** Virus scanners and file indexers hold a new file for a moment on some systems. */
const RETRIES = 5;
const RETRY_AFTER_MS = 40;
const PASSING = new Set(["EBUSY", "EPERM", "EACCES"]);

async function patiently(act: () => Promise<void>): Promise<void> {
  for (let round = 0; ; round++) {
    try {
      await act();
      return;
    } catch (error) {
      if (round >= RETRIES || !PASSING.has(errorCode(error) ?? "")) throw error;
      await wait(RETRY_AFTER_MS);
    }
  }
}

async function syncFolder(folder: string): Promise<void> {
  // Not every system lets a folder be opened; the file itself is already on disk then.
  const handle = await open(folder, "r").catch(() => undefined);
  await handle?.sync().catch(() => undefined);
  await handle?.close();
}

/**
 * Puts a file in its place whole or not at all: a temporary file in the same folder, synced, then brought to its name. A kill at
 * any moment leaves either the finished file or at most a temporary one (`.part`).
 * @param bring Gives the temporary file its name, as `link` (never over another file) or `rename` does.
 * @throws {Error} The system's own error.
 */
export async function putWhole(
  path: string,
  content: string | Uint8Array,
  bring: (temporary: string, path: string) => Promise<void>,
): Promise<void> {
  const temporary = join(dirname(path), `.${randomUUID()}.part`);
  try {
    const handle = await open(temporary, "wx");
    try {
      await handle.writeFile(content);
      await handle.sync();
    } finally {
      await handle.close();
    }
    await patiently(() => bring(temporary, path));
    await syncFolder(dirname(path));
  } finally {
    await unlink(temporary).catch(() => undefined);
  }
}
