import { writeFileSync } from "node:fs";
import { LastrinseError } from "../../src/errors.ts";
import { seededRandom, type Random } from "../../src/numeric/random.ts";
import { mendPngChecks, mutateBytes, mutateJson } from "./mutate.ts";
import { subjects, type Subject } from "./subjects.ts";

/** What became of one damaged copy. */
export interface FuzzCase {
  readonly reader: string;
  readonly name: string;
  readonly number: number;
  /** The code of the refusal, "read" where the copy still served, "crash" for anything else. */
  readonly outcome: string;
  readonly milliseconds: number;
  /** What was thrown by a crash. */
  readonly thrown: unknown;
  readonly bytes: Buffer;
}

function damagedCopy(subject: Subject, donor: Buffer, random: Random): Buffer {
  if (subject.form === "json" && random.below(2) === 0) return mutateJson(subject.bytes, random);
  const bytes = mutateBytes(subject.bytes, donor, random);
  return subject.form === "png" && random.below(2) === 0 ? mendPngChecks(bytes) : bytes;
}

/** A refusal must be of use: a code, a message with the input's kind and a remedy. */
function outcomeOf(error: unknown): string {
  return error instanceof LastrinseError && error.message !== "" && error.remedy !== ""
    ? error.code
    : "crash";
}

/**
 * Damaged copies of every subject through its reader, one after another. The same seed gives the same copies.
 * @param share Of the copies of a whole run; each subject gets at least one.
 * @param mostMilliseconds No new copy is begun after this time; Infinity for all.
 */
export async function runFuzz(
  folder: string,
  { seed, share, mostMilliseconds }: { seed: number; share: number; mostMilliseconds: number },
): Promise<FuzzCase[]> {
  const all = await subjects(folder);
  const start = performance.now();
  const cases: FuzzCase[] = [];
  for (const [i, subject] of all.entries()) {
    const random = seededRandom(1000 * seed + i);
    const copies = Math.max(1, Math.round(share * subject.inputs));
    for (let number = 0; number < copies; number++) {
      if (performance.now() - start > mostMilliseconds) return cases;
      const bytes = damagedCopy(subject, all[random.below(all.length)].bytes, random);
      writeFileSync(subject.path, bytes);
      const { reader, name } = subject;
      const begun = performance.now();
      const thrown: unknown = await subject.read().then(
        () => undefined,
        (error: unknown) => error ?? new Error("nothing was thrown"),
      );
      const milliseconds = performance.now() - begun;
      const outcome = thrown === undefined ? "read" : outcomeOf(thrown);
      cases.push({ reader, name, number, outcome, milliseconds, thrown, bytes });
    }
    writeFileSync(subject.path, subject.bytes);
  }
  return cases;
}
