import { createHash } from "node:crypto";
import type { NewEvent } from "../../src/record/appendEvent.ts";
import {
  type EventInput,
  type EventKind,
  eventSchema,
  type RecordEvent,
  type Settings,
} from "../../src/record/event.ts";
import type { OpenRecord } from "../../src/record/openRecord.ts";
import { treatmentOf } from "../../src/record/treatment.ts";
import { OPENED } from "./openedEvent.ts";

/** An event with its settings, at a fixed time. */
export function newEvent<Kind extends EventKind>(
  kind: Kind,
  settings: Settings<Kind>,
  inputs: readonly EventInput[] = [],
): NewEvent<Kind> {
  return { kind, settings, inputs, at: OPENED.at, program: "test" };
}

/** Nothing said but the kind. */
export const UNSAID: Settings<"bath"> = {
  kind: "wash",
  surfactant: null,
  composition: null,
  minutes: null,
  temperatureC: null,
  volumeMl: null,
  phIn: null,
  phOut: null,
  agitation: null,
  foam: null,
  note: null,
  repeated: [],
  card: null,
};

/** A blotter test of red of which only the result is known. */
export const TESTED: Settings<"blot"> = {
  ink: "red",
  result: "fast",
  liquid: null,
  surfactant: null,
  ph: null,
  temperatureC: null,
  minutes: null,
  site: null,
  card: null,
  spotBox: null,
  controlBox: null,
};

/** A before scan of the front. */
export const SCANNED: Settings<"before"> = {
  side: "front",
  card: "chart24-post2014",
  corners: null,
  state: "dry",
  stateAssumed: false,
  dpi: null,
  page: null,
};

/** An input that lies nowhere; its content is told by its name. */
export function input(role: string, file: string): EventInput {
  return { role, file, bytes: 1, sha256: createHash("sha256").update(file).digest("hex") };
}

/** Events as a record would hold them, the first one opening it. */
export function numbered(events: readonly NewEvent<EventKind>[]): RecordEvent[] {
  return [OPENED, ...events].map((event, i) =>
    eventSchema.parse({
      ...event,
      schema: "lastrinse.event",
      version: 1,
      id: String(i + 1).padStart(6, "0"),
    }),
  );
}

/**
 * A record that lies in no folder.
 * @param kept Results by their name in the store; what is not there is computed.
 */
export function memoryRecord(
  events: readonly NewEvent<EventKind>[],
  kept: Readonly<Record<string, unknown>> = {},
): OpenRecord {
  const all = numbered(events);
  return {
    folder: "/nowhere",
    events: all,
    damaged: [],
    treatment: treatmentOf(all),
    store: {
      keep: async <T>(name: string, _sources: unknown, compute: () => Promise<T>) =>
        name in kept ? (kept[name] as T) : compute(),
      keepBytes: async (name, _sources, compute) =>
        name in kept ? (kept[name] as Uint8Array) : compute(),
    },
    program: "test",
    warnings: [],
  };
}
