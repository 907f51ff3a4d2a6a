import type { RecordEvent } from "../../src/record/event.ts";
import type { KeptBlot } from "../../src/record/gradeBlot.ts";
import type { DrawnRecord } from "./drawRecord.ts";

/** A record without one of the things that nobody had to say, photograph or test. */
export interface Removal {
  /** What is gone, for example "bath 000007 temperatureC". */
  readonly what: string;
  /** The same without the event's number. */
  readonly kind: string;
  readonly events: readonly RecordEvent[];
}

/** Settings that may be left out, by kind of event. */
const OPTIONAL: Readonly<Partial<Record<RecordEvent["kind"], readonly string[]>>> = {
  opened: ["object"],
  blot: ["liquid", "surfactant", "ph", "temperatureC", "minutes", "site"],
  bath: [
    "surfactant",
    "composition",
    "minutes",
    "temperatureC",
    "volumeMl",
    "phIn",
    "phOut",
    "agitation",
    "foam",
    "note",
  ],
};

/**
 * Every record that lacks exactly one optional condition, photo (pair, where spent and blank go together), test or word of this one. A test is
 * taken away as a record lets it be: by withdrawing it, whatever it had shown. A word that says worse than its photo can't be taken away
 * (`amend` refuses it); it can only be corrected.
 */
export function removalsOf({ events, kept }: DrawnRecord): readonly Removal[] {
  const removals: Removal[] = [];
  const put = (event: RecordEvent, part: string, changed: RecordEvent | null): void => {
    removals.push({
      what: `${event.kind} ${event.id} ${part}`,
      kind: `${event.kind} ${part}`,
      events: events.flatMap((one) => (one !== event ? [one] : changed === null ? [] : [changed])),
    });
  };
  const without = (event: RecordEvent, ...roles: readonly string[]): RecordEvent => ({
    ...event,
    inputs: event.inputs.filter(({ role }) => !roles.includes(role)),
  });
  for (const event of events) {
    const settings: Readonly<Record<string, unknown>> = event.settings;
    for (const name of OPTIONAL[event.kind] ?? [])
      if (settings[name] !== null)
        put(event, name, { ...event, settings: { ...settings, [name]: null } } as RecordEvent);
    if (event.kind === "before") put(event, "scan", null);
    if (event.kind === "step" && event.inputs.length > 0)
      put(event, "photo", without(event, "photo"));
    if (event.kind === "bath" && event.inputs.length > 0) {
      put(event, "photos", without(event, "spent", "blank"));
      put(event, "spent photo", without(event, "spent"));
      put(event, "blank photo", without(event, "blank"));
    }
    if (event.kind === "blot") {
      removals.push({
        what: `blot ${event.id} test`,
        kind: "blot test",
        events: [...events, withdrawal(event, events.length + 1)],
      });
      if (event.inputs.length > 0) put(event, "photo", without(event, "photo"));
      const seen = (kept.get(`${event.id}-blot`) as KeptBlot | undefined)?.reading?.verdict ?? null;
      if (
        event.inputs.length > 0 &&
        event.settings.result !== null &&
        event.settings.result === seen
      )
        put(event, "word", { ...event, settings: { ...event.settings, result: null } });
    }
  }
  return removals;
}

function withdrawal({ id, at }: RecordEvent, order: number): RecordEvent {
  return {
    schema: "lastrinse.event",
    version: 1,
    id: String(order).padStart(6, "0"),
    kind: "amended",
    at,
    program: "test",
    inputs: [],
    settings: { event: id, why: null, withdrawn: true, changes: {} },
  };
}
