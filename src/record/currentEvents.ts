import { LastrinseError } from "../errors.ts";
import { type RecordEvent, SETTINGS } from "./event.ts";

/**
 * The record as it stands: every event with the corrections that later events made to it, withdrawn ones left out.
 * Events themselves are never edited; an `amended` event cites the one it corrects by id.
 */
export function currentEvents(events: readonly RecordEvent[]): RecordEvent[] {
  const current = new Map<string, RecordEvent>();
  for (const event of events) {
    if (event.kind !== "amended") {
      current.set(event.id, event);
      continue;
    }
    const target = current.get(event.settings.event);
    if (target === undefined) continue;
    if (event.settings.withdrawn) current.delete(target.id);
    else current.set(target.id, applyChanges(target, event.settings.changes));
  }
  return [...current.values()];
}

/**
 * An event with some of its settings replaced.
 * @throws {LastrinseError} `wrong-use` where a setting does not exist or its value does not fit.
 */
export function applyChanges(
  event: RecordEvent,
  changes: Readonly<Record<string, unknown>>,
): RecordEvent {
  const known = Object.keys(event.settings);
  const stranger = Object.keys(changes).find((name) => !known.includes(name));
  if (stranger !== undefined)
    throw new LastrinseError(
      "wrong-use",
      `Expected a setting of event ${event.id} (${event.kind}), received "${stranger}".`,
      { remedy: `Use one of: ${known.join(", ")}.`, input: stranger },
    );
  const parsed = SETTINGS[event.kind].safeParse({ ...event.settings, ...changes });
  if (!parsed.success) {
    const issue = parsed.error.issues[0];
    throw new LastrinseError(
      "wrong-use",
      `The value of "${issue.path.join(".")}" does not fit event ${event.id} (${event.kind}): ${issue.message}.`,
      { remedy: "Give a value of the same kind as the one it replaces.", input: event.id },
    );
  }
  return { ...event, settings: parsed.data } as RecordEvent;
}
