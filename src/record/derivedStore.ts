import { createHash } from "node:crypto";
import { mkdir, readFile } from "node:fs/promises";
import { join } from "node:path";
import type { z } from "zod";
import { replaceFile } from "../files/replaceFile.ts";

/** Results kept beside the events so that a command at the tray need not measure again. All of it can be rebuilt. */
export interface DerivedStore {
  /**
   * The value kept under a name, if it was made from the same sources; else computed and kept.
   * @param name File name without its ending.
   * @param sources Everything the value depends on: settings, hashes of inputs, the program's version.
   * @param schema What a kept value must be, or it is made anew.
   * @returns The value after a round trip through JSON, also when it was just computed. NaN and the infinities come back as
   *   they were: a figure that could not be measured must not turn into null, which counts as 0 in a sum.
   */
  keep<T>(name: string, sources: unknown, compute: () => Promise<T>, schema: z.ZodType): Promise<T>;
  /** The same for bytes, such as pictures. */
  keepBytes(
    name: string,
    sources: unknown,
    compute: () => Promise<Uint8Array>,
  ): Promise<Uint8Array>;
}

interface Kept {
  readonly sources: string;
  readonly digest: string;
  readonly text: string;
}

/** Part of every digest: results kept in another form are made anew. */
const FORM = 2;

/** The name under which a number stands that JSON has no word for. */
const NUMBER = "lastrinse.number";

function toText(value: unknown): string {
  return JSON.stringify(value, (_key, part: unknown) =>
    typeof part === "number" && !Number.isFinite(part) ? { [NUMBER]: String(part) } : part,
  );
}

function fromText(text: string): unknown {
  return JSON.parse(text, (_key, part: unknown) =>
    typeof part === "object" && part !== null && NUMBER in part ? Number(part[NUMBER]) : part,
  );
}

function digestOf(text: string): string {
  return createHash("sha256").update(text).digest("hex");
}

async function readKept(path: string, sources: string): Promise<string | undefined> {
  try {
    const kept = JSON.parse(await readFile(path, "utf8")) as Partial<Kept>;
    return kept.sources === sources &&
      kept.text !== undefined &&
      kept.digest === digestOf(kept.text)
      ? kept.text
      : undefined;
  } catch {
    return undefined;
  }
}

/** A store in the folder `derived/` of a record. A folder that can't be written only costs time. */
export function derivedStore(record: string): DerivedStore {
  const folder = join(record, "derived");
  const keepText = async (
    name: string,
    sources: unknown,
    compute: () => Promise<string>,
    fits: (text: string) => boolean = () => true,
  ): Promise<string> => {
    const path = join(folder, `${name}.json`);
    const made = digestOf(toText([FORM, sources]));
    const found = await readKept(path, made);
    if (found !== undefined && fits(found)) return found;
    const text = await compute();
    const kept: Kept = { sources: made, digest: digestOf(text), text };
    try {
      await mkdir(folder, { recursive: true });
      await replaceFile(path, JSON.stringify(kept));
    } catch {
      return text;
    }
    return text;
  };
  return {
    keep: async <T>(
      name: string,
      sources: unknown,
      compute: () => Promise<T>,
      schema: z.ZodType,
    ) => {
      const made = async () => toText(await compute());
      const fits = (text: string) => schema.safeParse(fromText(text)).success;
      return fromText(await keepText(name, sources, made, fits)) as T;
    },
    keepBytes: async (name, sources, compute) =>
      Buffer.from(
        await keepText(name, sources, async () => Buffer.from(await compute()).toString("base64")),
        "base64",
      ),
  };
}
