import type { RecordEvent } from "../../src/record/event.ts";
import type { BlotterReading } from "../../src/blotter/measureBlotter.ts";
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

const SEVERITY = ["untested", "fast", "doubtful", "bleeds"] as const;

/**
 * Every record that lacks exactly one optional condition, photo (pair, where spent and blank go together) or test of this one.
 * Left out are removals that take away the bad news itself where better news stays: a blotter that bled beside another that did not, the
 * photo of a spot worse than the word given for it. What was never seen nobody can warn of.
 */
export function removalsOf({ events, kept }: DrawnRecord): readonly Removal[] {
  const resultOf = (event: RecordEvent): (typeof SEVERITY)[number] => {
    if (event.kind !== "blot") return "untested";
    const photo = event.inputs.length > 0 ? readingOf(event, kept)?.verdict : undefined;
    const both = [photo ?? "untested", event.settings.result ?? "untested"] as const;
    return both[0] === "untested" || SEVERITY.indexOf(both[0]) < SEVERITY.indexOf(both[1])
      ? both[1]
      : both[0];
  };
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
      const { ink, result } = event.settings;
      const own = resultOf(event);
      const others = events.filter(
        (other) => other !== event && other.kind === "blot" && other.settings.ink === ink,
      );
      const better = (other: RecordEvent): boolean =>
        SEVERITY.indexOf(resultOf(other)) < SEVERITY.indexOf(own);
      if (!others.some(better)) put(event, "test", null);
      if (event.inputs.length > 0 && (result === null || result === own))
        put(event, "photo", without(event, "photo"));
      if (
        event.inputs.length > 0 &&
        result !== null &&
        resultOf({ ...event, settings: { ...event.settings, result: null } }) === own
      )
        put(event, "word", { ...event, settings: { ...event.settings, result: null } });
    }
  }
  return removals;
}

function readingOf(
  event: RecordEvent,
  kept: ReadonlyMap<string, unknown>,
): BlotterReading | undefined {
  const found = kept.get(`${event.id}-blot`) as
    { readonly reading: BlotterReading | null } | undefined;
  return found?.reading ?? undefined;
}
