import { mkdirSync, rmdirSync } from "node:fs";
import { readFile, stat, unlink } from "node:fs/promises";
import { dirname, join, resolve } from "node:path";
import { LastrinseError } from "../src/errors.ts";
import { createOnly } from "../src/files/createOnly.ts";
import { errorCode } from "../src/files/errorCode.ts";
import { replaceFile } from "../src/files/replaceFile.ts";
import type { OutputFiles } from "./context.ts";

async function exists(path: string): Promise<boolean> {
  try {
    await stat(path);
    return true;
  } catch (error) {
    if (["ENOENT", "ENOTDIR"].includes(errorCode(error) ?? "")) return false;
    throw error;
  }
}

function alreadyThere(path: string): LastrinseError {
  return new LastrinseError(
    "output-exists",
    `Expected a free name for the output, but ${path} exists.`,
    {
      remedy: "Name another folder with --out, or give --overwrite if the old file may go.",
      input: path,
    },
  );
}

/**
 * Makes the folder and checks every name, before the long work starts.
 * @throws {LastrinseError} `output-exists`, `output-unwritable`.
 */
export async function claimOutputs(
  folder: string,
  names: readonly string[],
  overwrite: boolean,
): Promise<void> {
  try {
    const made = mkdirSync(folder, { recursive: true });
    if (made !== undefined)
      process.once("exit", () => {
        removeEmpty(folder, made);
      });
  } catch (error) {
    throw new LastrinseError("output-unwritable", `The output folder ${folder} can't be made.`, {
      remedy: "Name a folder with --out in a place where you may write.",
      input: folder,
      cause: error,
    });
  }
  if (overwrite) return;
  for (const name of names)
    if (await exists(join(folder, name))) throw alreadyThere(join(folder, name));
}

/** An empty folder that this run made does not outlive it, whether it was refused or interrupted. */
function removeEmpty(folder: string, first: string): void {
  try {
    const top = resolve(first);
    for (let path = resolve(folder); path.startsWith(top); path = dirname(path)) rmdirSync(path);
  } catch {
    // Something stands in it.
  }
}

/** Whether a file already holds just this content: then there is nothing to write. */
async function holds(path: string, content: string | Uint8Array): Promise<boolean> {
  const found = await readFile(path).catch(() => undefined);
  return found?.equals(Buffer.from(content)) ?? false;
}

/** Writes one file so that nobody ever sees half of it. */
async function writeWhole(
  path: string,
  content: string | Uint8Array,
  overwrite: boolean,
): Promise<void> {
  let written = true;
  try {
    if (overwrite) await replaceFile(path, content);
    else written = await createOnly(path, content);
  } catch (error) {
    throw new LastrinseError("output-unwritable", `${path} can't be written.`, {
      remedy: "Check that the folder may be written and that the disk has room, then run again.",
      input: path,
      cause: error,
    });
  }
  if (!written && !(await holds(path, content))) throw alreadyThere(path);
}

/** Takes away what a former run left under a name that this run does not fill: it would pass for this run's. */
async function removeStale(path: string): Promise<void> {
  try {
    await unlink(path);
  } catch (error) {
    if (["ENOENT", "ENOTDIR"].includes(errorCode(error) ?? "")) return;
    throw new LastrinseError(
      "output-unwritable",
      `${path} is left from a former run and can't be removed.`,
      { remedy: "Move it away, or name another folder with --out.", input: path, cause: error },
    );
  }
}

/**
 * Writes all files of a result into the folder. With `overwrite` those of its possible names that it does not fill are removed, and nothing
 * else.
 * @param names Every name that the command may write. Default: none beside `files`.
 * @throws {LastrinseError} `output-exists`, `output-unwritable`.
 */
export async function writeOutputs(
  folder: string,
  files: OutputFiles,
  overwrite: boolean,
  names: readonly string[] = [],
): Promise<void> {
  for (const [name, content] of Object.entries(files))
    await writeWhole(join(folder, name), content, overwrite);
  if (!overwrite) return;
  for (const name of names) if (!(name in files)) await removeStale(join(folder, name));
}
