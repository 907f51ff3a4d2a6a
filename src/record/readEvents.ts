import { readdir } from "node:fs/promises";
import { join } from "node:path";
import { z } from "zod";
import { LastrinseError } from "../errors.ts";
import { readSmallFile } from "../json/readSmallFile.ts";
import { errorCode } from "../files/errorCode.ts";
import { EVENT_FILE, EVENT_VERSION, eventSchema, type RecordEvent } from "./event.ts";

/** A file under `events/` that can't be used; the rest of the record still serves. */
export interface DamagedEvent {
  readonly file: string;
  readonly problem: string;
}

export interface EventList {
  /** In the order of their ids. */
  readonly events: readonly RecordEvent[];
  readonly damaged: readonly DamagedEvent[];
}

/** Events are numbered without a gap: a number that is not there was lost. */
function lostEvents(names: readonly string[]): DamagedEvent[] {
  const numbers = new Set(names.flatMap((name) => EVENT_FILE.exec(name)?.[1] ?? []).map(Number));
  const lost: DamagedEvent[] = [];
  for (let number = 1; number < Math.max(0, ...numbers) && lost.length < MOST_LOST; number++)
    if (!numbers.has(number))
      lost.push({ file: `${String(number).padStart(6, "0")}.json`, problem: "it is missing" });
  return lost;
}

/** More than this need not be named one by one. */
const MOST_LOST = 20;

/** An event is a page of text at most; anything larger is not one of ours. */
const LARGEST_EVENT_BYTES = 1_000_000;

function problemOf(content: string, id: string): string | RecordEvent {
  let json: unknown;
  try {
    json = JSON.parse(content);
  } catch {
    return "it is not whole JSON";
  }
  const version = z.object({ version: z.number() }).safeParse(json);
  if (version.success && version.data.version > EVENT_VERSION)
    return `it was written by a newer version (event format ${String(version.data.version)}, known up to ${String(EVENT_VERSION)})`;
  const parsed = eventSchema.safeParse(json);
  if (!parsed.success) return z.prettifyError(parsed.error).replaceAll(/\s*\n\s*/g, " ");
  return parsed.data.id === id ? parsed.data : `it says id ${parsed.data.id}`;
}

/**
 * Reads every event of a record.
 * @throws {LastrinseError} `record-missing` where there is no such record; `record-damaged` where its first event, which
 * says what the record is, can't be used.
 */
export async function readEvents(folder: string): Promise<EventList> {
  const eventsFolder = join(folder, "events");
  const names = await readdir(eventsFolder).catch((error: unknown) => {
    throw new LastrinseError(
      "record-missing",
      `Expected a treatment record in ${folder}, found none.`,
      {
        remedy: `Check the folder's name, or start a record with: lastrinse open ${folder} --title "..."`,
        input: folder,
        cause: errorCode(error),
      },
    );
  });
  const events: RecordEvent[] = [];
  const damaged: DamagedEvent[] = [];
  for (const name of names.sort()) {
    const match = EVENT_FILE.exec(name);
    if (match === null) continue;
    const path = join(eventsFolder, name);
    const read = await readSmallFile(path, LARGEST_EVENT_BYTES).then(
      (bytes) => problemOf(bytes.toString("utf8"), match[1]),
      (error: unknown) => `it can't be read: ${error instanceof Error ? error.message : "failed"}`,
    );
    if (typeof read === "string") damaged.push({ file: name, problem: read });
    else events.push(read);
  }
  damaged.push(...lostEvents(names));
  damaged.sort((a, b) => (a.file < b.file ? -1 : 1));
  if (events[0]?.kind !== "opened")
    throw new LastrinseError(
      "record-damaged",
      `The record in ${folder} has no usable first event${damaged.length === 0 ? "" : `: ${damaged[0].file}, ${damaged[0].problem}`}.`,
      {
        remedy: "Restore the file from a copy of the record; the other events are untouched.",
        input: folder,
      },
    );
  return { events, damaged };
}
