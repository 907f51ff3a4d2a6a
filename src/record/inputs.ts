import { stat } from "node:fs/promises";
import { isAbsolute, relative, resolve, sep } from "node:path";
import { LastrinseError } from "../errors.ts";
import { sha256File } from "../raster/sha256File.ts";
import type { EventInput } from "./event.ts";

export type InputCondition = "unchanged" | "missing" | "changed";

/**
 * Describes a file for an event.
 * @throws {LastrinseError} `unreadable`.
 */
export async function describeInput(
  record: string,
  role: string,
  path: string,
): Promise<EventInput> {
  try {
    const inside = relative(resolve(record), resolve(path));
    const file = (isAbsolute(inside) ? resolve(path) : inside).split(sep).join("/");
    return { role, file, bytes: (await stat(path)).size, sha256: await sha256File(path) };
  } catch (error) {
    throw new LastrinseError("unreadable", `Expected a readable file for "${role}", got ${path}.`, {
      remedy: "Check the name and that the file may be read.",
      input: path,
      cause: error,
    });
  }
}

/** Where an input of an event lies now. */
export function inputPath(record: string, input: EventInput): string {
  return resolve(record, input.file);
}

/** Whether an input is still the file that was recorded. */
export async function inputCondition(record: string, input: EventInput): Promise<InputCondition> {
  const path = inputPath(record, input);
  const size = await stat(path).then(
    (found) => found.size,
    () => undefined,
  );
  if (size === undefined) return "missing";
  if (size !== input.bytes) return "changed";
  return (await sha256File(path)) === input.sha256 ? "unchanged" : "changed";
}
