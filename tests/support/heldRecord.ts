import { type RecordEvent, eventSchema } from "../../src/record/event.ts";
import type { OpenRecord } from "../../src/record/openRecord.ts";
import { treatmentOf } from "../../src/record/treatment.ts";

/**
 * A record as a command works with it, held in memory: its events, and in place of picture reading what the pictures would have said.
 * A picture that is asked for and was not given is read for real, and so refused: its file is not there.
 */
export function heldRecord(
  events: readonly RecordEvent[],
  kept: ReadonlyMap<string, unknown>,
): OpenRecord {
  const whole = events.map((event) => eventSchema.parse(event));
  return {
    folder: "held-in-memory",
    events: whole,
    damaged: [],
    treatment: treatmentOf(whole),
    store: {
      // Through JSON, as the folder would give it back.
      keep: async <T>(name: string, _sources: unknown, compute: () => Promise<T>) =>
        JSON.parse(JSON.stringify(kept.has(name) ? kept.get(name) : await compute())) as T,
      keepBytes: (_name, _sources, compute) => compute(),
    },
    program: "test",
    warnings: [],
  };
}
