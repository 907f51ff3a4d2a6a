import { mkdir, readdir } from "node:fs/promises";
import { join } from "node:path";
import type { z } from "zod";
import { LastrinseError } from "../errors.ts";
import { createOnly } from "../files/createOnly.ts";
import { errorCode } from "../files/errorCode.ts";
import {
  EVENT_FILE,
  EVENT_VERSION,
  type EventInput,
  type EventKind,
  eventSchema,
  type RecordEvent,
  type Settings,
} from "./event.ts";

export interface NewEvent<Kind extends EventKind> {
  readonly kind: Kind;
  readonly settings: Settings<Kind>;
  readonly inputs: readonly EventInput[];
  /** ISO 8601 with offset. */
  readonly at: string;
  /** Version of this program. */
  readonly program: string;
}

const ID_DIGITS = 6;

/** More writers than this at once means that something else is wrong. */
const MOST_TRIES = 200;

async function lastNumber(eventsFolder: string): Promise<number> {
  const numbers = (await readdir(eventsFolder))
    .map((name) => EVENT_FILE.exec(name)?.[1])
    .filter((digits) => digits !== undefined)
    .map(Number);
  return Math.max(0, ...numbers);
}

function misfit(kind: EventKind, { issues }: z.ZodError): LastrinseError {
  const what = issues[0].path.join(".");
  return new LastrinseError(
    "wrong-use",
    `Expected values that fit an event "${kind}", received for ${what}: ${issues[0].message}.`,
    {
      remedy: "Give the command again with another value; nothing of it was recorded.",
      input: what,
    },
  );
}

/**
 * Adds one event to a record: one new file that is never changed again. Two writers at once get two different ids.
 * @returns The event as written.
 * @throws {LastrinseError} `output-unwritable`; `wrong-use` where a value is out of its range or a text is too long.
 */
export async function appendEvent<Kind extends EventKind>(
  folder: string,
  event: NewEvent<Kind>,
): Promise<RecordEvent> {
  const eventsFolder = join(folder, "events");
  try {
    await mkdir(eventsFolder, { recursive: true });
    for (let round = 0, number = await lastNumber(eventsFolder); round < MOST_TRIES; round++) {
      const id = String(++number).padStart(ID_DIGITS, "0");
      const parsed = eventSchema.safeParse({
        schema: "lastrinse.event",
        version: EVENT_VERSION,
        id,
        kind: event.kind,
        at: event.at,
        program: event.program,
        inputs: event.inputs,
        settings: event.settings,
      });
      if (!parsed.success) throw misfit(event.kind, parsed.error);
      const whole = parsed.data;
      const path = join(eventsFolder, `${id}.json`);
      if (await createOnly(path, `${JSON.stringify(whole, null, 2)}\n`)) return whole;
    }
    throw new Error(`no free event number after ${String(MOST_TRIES)} tries`);
  } catch (error) {
    if (error instanceof LastrinseError) throw error;
    throw new LastrinseError(
      "output-unwritable",
      `The event "${event.kind}" can't be written into the record ${folder} (${errorCode(error) ?? String(error)}).`,
      {
        remedy:
          "Check that the folder may be written and that the disk has room, then give the command again; nothing of it was recorded.",
        input: folder,
        cause: error,
      },
    );
  }
}
