import { z } from "zod";
import { LastrinseError } from "../errors.ts";
import { jsonFaultLine } from "./jsonFaultLine.ts";
import { jsonPathLine } from "./jsonPathLine.ts";

/** What a file of the user's should be, for messages. */
export interface UserFile {
  /** The kind of file, like "a station file". */
  readonly what: string;
  /** How to mend it, one sentence or more. */
  readonly remedy: string;
}

/** More wrong entries than this are counted instead of named. */
const MOST_NAMED = 8;

/**
 * Reads the text of a JSON file of the user's and checks it against a schema.
 * @param file For messages.
 * @throws {LastrinseError} `bad-json`, naming the line where the text is no JSON, or path and line of each wrong entry.
 */
export function parseUserJson<Schema extends z.ZodType>(
  text: string,
  file: string,
  schema: Schema,
  { what, remedy }: UserFile,
): z.infer<Schema> {
  // Editors on some systems write a byte-order mark.
  const plain = text.replace(/^\uFEFF/, "");
  let json: unknown;
  try {
    json = JSON.parse(plain);
  } catch (cause) {
    throw new LastrinseError(
      "bad-json",
      `Expected ${what} in ${file}, received text that is no JSON in line ${jsonFaultLine(plain)}.`,
      {
        remedy: `Look there, and at the end of the line before, for a missing or surplus comma, quote or bracket. ${remedy}`,
        input: file,
        cause,
      },
    );
  }
  const parsed = schema.safeParse(json);
  if (parsed.success) return parsed.data;
  throw new LastrinseError(
    "bad-json",
    `Expected ${what} in ${file}, received ${faultsIn(plain, parsed.error.issues)}.`,
    { remedy, input: file, cause: parsed.error },
  );
}

function faultsIn(text: string, issues: z.ZodError["issues"]): string {
  const oneLine = !text.trim().includes("\n");
  const named = issues.slice(0, MOST_NAMED).map(({ path, message }) => {
    const line = oneLine ? "" : ` (line ${String(jsonPathLine(text, path))})`;
    return `${z.core.toDotPath(path) || "the top level"}: ${message}${line}`;
  });
  const more = issues.length - named.length;
  return [...named, ...(more > 0 ? [`${String(more)} more wrong entries`] : [])].join("; ");
}
