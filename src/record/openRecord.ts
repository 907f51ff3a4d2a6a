import type { Warning } from "../errors.ts";
import { LastrinseError } from "../errors.ts";
import { currentEvents } from "./currentEvents.ts";
import { type DerivedStore, derivedStore } from "./derivedStore.ts";
import type { EventInput, RecordEvent } from "./event.ts";
import { inputCondition, inputPath } from "./inputs.ts";
import { type DamagedEvent, readEvents } from "./readEvents.ts";
import { type Treatment, treatmentOf } from "./treatment.ts";

/** A record as a command works with it. */
export interface OpenRecord {
  readonly folder: string;
  readonly events: readonly RecordEvent[];
  readonly damaged: readonly DamagedEvent[];
  readonly treatment: Treatment;
  readonly store: DerivedStore;
  /** Version of this program: results of another version are made anew. */
  readonly program: string;
  /** Damaged events, inputs that have moved or changed. */
  readonly warnings: readonly Warning[];
}

/**
 * Opens a record and looks whether its inputs are still what they were.
 * @throws {LastrinseError} `record-missing`, `record-damaged`.
 */
export async function openRecord(folder: string, program: string): Promise<OpenRecord> {
  const { events, damaged: unreadable } = await readEvents(folder);
  const unfit: DamagedEvent[] = [];
  const treatment = treatmentOf(events, ({ id, error }) =>
    unfit.push({ file: `${id}.json`, problem: error.message.replace(/\.$/, "") }),
  );
  const damaged = [...unreadable, ...unfit];
  const warnings: Warning[] = damaged.map(({ file, problem }) => ({
    code: "event-damaged",
    message: `${file} in the record can't be used (${problem}); the rest of the record still serves, but gives no go-ahead for another bath. Restore it from a copy.`,
  }));
  const seen = new Set<string>();
  // Files that were replaced or withdrawn bear no figure any more.
  for (const { inputs } of currentEvents(events, () => undefined))
    for (const input of inputs) {
      if (seen.has(`${input.file} ${input.sha256}`)) continue;
      seen.add(`${input.file} ${input.sha256}`);
      const condition = await inputCondition(folder, input);
      if (condition !== "unchanged")
        warnings.push({
          code: condition === "missing" ? "input-missing" : "input-changed",
          message: `${input.file} ${condition === "missing" ? "is no longer where it was recorded" : "has changed since it was recorded"}; figures from it come from the record. Put the original file back.`,
        });
    }
  return {
    folder,
    events,
    damaged,
    treatment,
    store: derivedStore(folder),
    program,
    warnings,
  };
}

/**
 * Path of an input that is still the file that was recorded.
 * @throws {LastrinseError} `unreadable`.
 */
export async function unchangedInput(folder: string, input: EventInput): Promise<string> {
  const condition = await inputCondition(folder, input);
  if (condition === "unchanged") return inputPath(folder, input);
  throw new LastrinseError(
    "unreadable",
    `Expected ${input.file} as it was recorded, ${condition === "missing" ? "found no such file" : "found another content"}.`,
    {
      remedy:
        "Put the original file back where it was, or record the step again with the file of now.",
      input: input.file,
    },
  );
}
