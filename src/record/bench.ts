import { createHash } from "node:crypto";
import { mkdir, readFile, readdir } from "node:fs/promises";
import { join } from "node:path";
import { replaceFile } from "../files/replaceFile.ts";
import { z } from "zod";
import type { FinishedInk } from "../bath/benchFactor.ts";
import { LastrinseError } from "../errors.ts";
import type { RecordEvent } from "./event.ts";

/** What one finished treatment taught, as a file in the folder of its bench. Made anew from the record at any time. */
const noteSchema = z.object({
  schema: z.literal("lastrinse.bench-note"),
  version: z.literal(1),
  /** Hash of the record's first event: says which record, whatever its folder is called. */
  record: z.string(),
  title: z.string(),
  inks: z.array(
    z.object({
      day: z.string(),
      inkClass: z.string(),
      modelDeltaE00: z.number(),
      measuredDeltaE00: z.number(),
      noiseDeltaE00: z.number(),
    }),
  ),
});

/** What names a record wherever its folder lies: the hash of its first event. */
export function recordKey(opened: RecordEvent): string {
  return createHash("sha256").update(JSON.stringify(opened)).digest("hex").slice(0, 32);
}

/** What a bench taught so far. */
export interface BenchNotes {
  readonly finished: readonly FinishedInk[];
  /** Names of notes that are not whole: what they taught is not known. */
  readonly unreadable: readonly string[];
  /** There is no such folder: nothing was taught yet, or it moved. */
  readonly missing: boolean;
}

/** Notes of finished treatments of a bench; a record does not learn from itself. Files that are none of ours are left alone. */
export async function readBench(bench: string, ownKey: string): Promise<BenchNotes> {
  const entries = await readdir(bench, { withFileTypes: true }).catch(() => null);
  if (entries === null) return { finished: [], unreadable: [], missing: true };
  const finished: FinishedInk[] = [];
  const unreadable: string[] = [];
  const names = entries.flatMap((one) => (one.isDirectory() ? [] : [one.name]));
  for (const name of names.filter((one) => one.endsWith(".bench.json")).sort()) {
    // Its own note, whole or not, is not read.
    if (name === noteName(ownKey)) continue;
    const note = noteSchema.safeParse(await readJson(join(bench, name)));
    if (!note.success) unreadable.push(name);
    else if (note.data.record !== ownKey) finished.push(...note.data.inks);
  }
  return { finished, unreadable, missing: false };
}

const noteName = (key: string): string => `${key}.bench.json`;

/** undefined: not readable, or no JSON. */
async function readJson(path: string): Promise<unknown> {
  try {
    return JSON.parse(await readFile(path, "utf8"));
  } catch {
    return undefined;
  }
}

/**
 * Leaves what a finished treatment taught in the folder of its bench.
 * @throws {LastrinseError} `output-unwritable`.
 */
export async function writeBenchNote(
  bench: string,
  key: string,
  title: string,
  inks: readonly FinishedInk[],
): Promise<void> {
  try {
    await mkdir(bench, { recursive: true });
    const note = { schema: "lastrinse.bench-note", version: 1, record: key, title, inks };
    await replaceFile(join(bench, noteName(key)), `${JSON.stringify(note, null, 2)}\n`);
  } catch (error) {
    throw new LastrinseError("output-unwritable", `The bench folder ${bench} can't be written.`, {
      remedy: "Check the folder named with open --bench; the record itself is complete.",
      input: bench,
      cause: error,
    });
  }
}
