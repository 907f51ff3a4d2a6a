import { link, open, unlink } from "node:fs/promises";
import { randomUUID } from "node:crypto";
import { dirname, join } from "node:path";
import { setTimeout as wait } from "node:timers/promises";

/** Virus scanners and file indexers hold a new file for a moment on some systems. */
const RETRIES = 5;
const RETRY_AFTER_MS = 40;
const PASSING = new Set(["EBUSY", "EPERM", "EACCES"]);

export function errorCode(error: unknown): string | undefined {
  return error instanceof Error && "code" in error && typeof error.code === "string"
    ? error.code
    : undefined;
}

async function linkPatiently(from: string, to: string): Promise<void> {
  for (let round = 0; ; round++) {
    try {
      await link(from, to);
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
 * Writes a file that must not exist yet, whole or not at all: a temporary file in the same folder, synced, then linked to
 * its name. A kill at any moment leaves either the finished file or at most a temporary one (`.part`).
 * @returns false where the name was taken; the file there is untouched.
 */
export async function createOnly(path: string, content: string): Promise<boolean> {
  const temporary = join(dirname(path), `.${randomUUID()}.part`);
  const handle = await open(temporary, "wx");
  try {
    try {
      await handle.writeFile(content);
      await handle.sync();
    } finally {
      await handle.close();
    }
    await linkPatiently(temporary, path);
    await syncFolder(dirname(path));
    return true;
  } catch (error) {
    if (errorCode(error) === "EEXIST") return false;
    throw error;
  } finally {
    await unlink(temporary).catch(() => undefined);
  }
}
