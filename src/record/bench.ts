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

/** Notes of finished treatments of a bench; a record does not learn from itself. Files that are none of ours are left alone. */
export async function readBench(bench: string, ownKey: string): Promise<FinishedInk[]> {
  const names = await readdir(bench).catch(() => []);
  const finished: FinishedInk[] = [];
  for (const name of names.filter((one) => one.endsWith(".bench.json")).sort()) {
    const text = await readFile(join(bench, name), "utf8").catch(() => "");
    let json: unknown;
    try {
      json = JSON.parse(text);
    } catch {
      continue;
    }
    const note = noteSchema.safeParse(json);
    if (note.success && note.data.record !== ownKey) finished.push(...note.data.inks);
  }
  return finished;
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
    await replaceFile(join(bench, `${key}.bench.json`), `${JSON.stringify(note, null, 2)}\n`);
  } catch (error) {
    throw new LastrinseError("output-unwritable", `The bench folder ${bench} can't be written.`, {
      remedy: "Check the folder named with open --bench; the record itself is complete.",
      input: bench,
      cause: error,
    });
  }
}
