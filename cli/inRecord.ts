import { LastrinseError } from "../src/errors.ts";
import { appendEvent } from "../src/record/appendEvent.ts";
import { cardNamed } from "../src/card/cards.ts";
import { TURBIDITY_PHOTO, turbidityPhotos } from "../src/record/turbidityPhotos.ts";
import type { EventInput, EventKind, RecordEvent, Settings } from "../src/record/event.ts";
import { describeInput } from "../src/record/inputs.ts";
import { type OpenRecord, openRecord } from "../src/record/openRecord.ts";
import type { EventAdded } from "../src/results/eventAdded.ts";
import { now } from "./now.ts";
import { readVersion } from "./readVersion.ts";

/** An event's id as it was typed: 4 is 000004. */
export function eventId(text: string): string {
  return /^\d{1,5}$/.test(text) ? text.padStart(6, "0") : text;
}

/** Opens the record named on the command line. */
export function recordNamed(folder: string | undefined): Promise<OpenRecord> {
  return openRecord(String(folder), readVersion());
}

/** Adds an event to a record, as of now. */
export function recordEvent<Kind extends EventKind>(
  folder: string,
  kind: Kind,
  settings: Settings<Kind>,
  inputs: readonly EventInput[],
): Promise<RecordEvent> {
  return appendEvent(folder, { kind, settings, inputs, at: now(), program: readVersion() });
}

/**
 * Describes the files given by options; those left out are left out, and so is a built-in card. With a turbidity series go the photos that
 * it names.
 */
export async function describeInputs(
  record: string,
  files: Readonly<Record<string, string | undefined>>,
): Promise<EventInput[]> {
  const inputs: EventInput[] = [];
  for (const [role, file] of Object.entries(files))
    if (file !== undefined && !(role === "card" && cardNamed(file) !== undefined))
      inputs.push(await describeInput(record, role, file));
  const series = files["turbidity-series"];
  if (series !== undefined)
    for (const photo of await turbidityPhotos(series))
      inputs.push(await describeInput(record, TURBIDITY_PHOTO, photo));
  return inputs;
}

/** Result of a command that only adds an event. */
export function eventResult(
  event: RecordEvent,
  text: string,
  more: Omit<EventAdded, "schema" | "version" | "event"> = {},
): { readonly json: EventAdded; readonly text: string } {
  return {
    json: { schema: "lastrinse.event-added", version: 1, event, ...more },
    text: `Recorded as event ${event.id}. ${text}`.trim(),
  };
}

/** A box option, "x,y,width,height". */
export function parseBox(text: string, option: string): [number, number, number, number] {
  const parts = text.split(",").map((part) => (part.trim() === "" ? NaN : Number(part)));
  if (parts.length === 4 && parts.every(Number.isFinite) && parts[2] > 0 && parts[3] > 0)
    return parts as [number, number, number, number];
  throw new LastrinseError(
    "wrong-use",
    `Expected x,y,width,height for ${option}, received "${text}".`,
    {
      remedy: "Give four numbers in pixels of the upright picture, for example 120,80,300,200.",
      input: option,
    },
  );
}
