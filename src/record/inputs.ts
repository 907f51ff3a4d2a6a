import { stat } from "node:fs/promises";
import { isAbsolute, relative, resolve, sep } from "node:path";
import { LastrinseError } from "../errors.ts";
import { sha256File } from "../raster/sha256File.ts";
import { errorCode } from "../files/errorCode.ts";
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
    const found = await stat(path);
    // A pipe or a device may have no end.
    if (!found.isFile()) throw new Error(found.isDirectory() ? "a folder" : "a device or a pipe");
    return { role, file, bytes: found.size, sha256: await sha256File(path) };
  } catch (error) {
    throw new LastrinseError(
      "unreadable",
      `Expected a readable file for "${role}", received ${path} (${error instanceof Error ? (errorCode(error) ?? error.message) : "unknown"}).`,
      {
        remedy: "Check the name and that the file may be read.",
        input: path,
        cause: error,
      },
    );
  }
}

/** Where an input of an event lies now. */
export function inputPath(record: string, input: EventInput): string {
  return resolve(record, input.file);
}

/** Whether an input is still the file that was recorded. */
export async function inputCondition(record: string, input: EventInput): Promise<InputCondition> {
  const path = inputPath(record, input);
  const found = await stat(path).catch(() => undefined);
  if (found === undefined) return "missing";
  if (!found.isFile() || found.size !== input.bytes) return "changed";
  const sha256 = await sha256File(path).catch(() => undefined);
  // A file that may no longer be read is as good as none.
  if (sha256 === undefined) return "missing";
  return sha256 === input.sha256 ? "unchanged" : "changed";
}
