import type { EventInput, RecordEvent } from "../record/event.ts";

/** Every file that the events name, once. */
export function filesOf(events: readonly RecordEvent[]): EventInput[] {
  const files = events.flatMap(({ inputs }) => inputs);
  return [...new Map(files.map((one) => [`${one.sha256} ${one.file}`, one])).values()];
}
