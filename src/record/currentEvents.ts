import { LastrinseError } from "../errors.ts";
import { type EventInput, type RecordEvent, SETTINGS } from "./event.ts";

/** A correction that fits nothing: it was written by hand or by another program. */
export interface UnfitCorrection {
  /** Id of the correction. */
  readonly id: string;
  readonly error: LastrinseError;
}

/** A record with its corrections applied. */
export interface FoldedEvents {
  /** Every event as later events left it, withdrawn ones left out. */
  readonly current: readonly RecordEvent[];
  /** The withdrawn ones, as they were last corrected. */
  readonly withdrawn: readonly RecordEvent[];
}

/** The record as it stands, withdrawn events left out; else as `foldEvents`. */
export function currentEvents(
  events: readonly RecordEvent[],
  onUnfit?: (unfit: UnfitCorrection) => void,
): readonly RecordEvent[] {
  return foldEvents(events, onUnfit).current;
}

/**
 * Every event with the corrections that later events made to it. Events themselves are never edited; an `amended` event cites the one it
 * corrects by id.
 * @param onUnfit Told of a correction that can't be made; the event then stays as it was. Default: it is thrown.
 * @throws {LastrinseError} `wrong-use` without `onUnfit`.
 */
export function foldEvents(
  events: readonly RecordEvent[],
  onUnfit?: (unfit: UnfitCorrection) => void,
): FoldedEvents {
  const withdrawn = new Set<string>();
  const current = new Map<string, RecordEvent>();
  for (const event of events) {
    if (event.kind !== "amended") {
      current.set(event.id, event);
      continue;
    }
    const target = current.get(event.settings.event);
    if (target === undefined) continue;
    if (event.settings.withdrawn) {
      withdrawn.add(target.id);
      continue;
    }
    try {
      const changed = applyChanges(target, event.settings.changes);
      current.set(target.id, { ...changed, inputs: withInputs(changed.inputs, event.inputs) });
    } catch (error) {
      if (onUnfit === undefined || !(error instanceof LastrinseError)) throw error;
      onUnfit({ id: event.id, error });
    }
  }
  const all = [...current.values()];
  return {
    current: all.filter(({ id }) => !withdrawn.has(id)),
    withdrawn: all.filter(({ id }) => withdrawn.has(id)),
  };
}

/** Files given later take the place of those of the same role; the rest stays. */
function withInputs(own: readonly EventInput[], later: readonly EventInput[]): EventInput[] {
  const roles = new Set(later.map(({ role }) => role));
  return [...own.filter(({ role }) => !roles.has(role)), ...later];
}

/**
 * An event with some of its settings replaced. What is said of a bath now is no longer repeated from another one.
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
  const parsed = SETTINGS[event.kind].safeParse({
    ...event.settings,
    ...(event.kind === "bath"
      ? { repeated: event.settings.repeated.filter((name) => !(name in changes)) }
      : {}),
    ...changes,
  });
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
