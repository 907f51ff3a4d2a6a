import type { z } from "zod";
import { LastrinseError } from "../errors.ts";
import { readSmallFile } from "./readSmallFile.ts";

/**
 * Reads a JSON file of the user's and checks it against a schema.
 * @param what Names the kind of file in messages, like "a station file".
 * @throws {LastrinseError} `unreadable`, or `bad-json` naming each wrong entry by its path.
 */
export async function readJson<Schema extends z.ZodType>(
  file: string,
  schema: Schema,
  what: string,
  remedy: string,
): Promise<z.infer<Schema>> {
  let text: string;
  try {
    text = (await readSmallFile(file)).toString("utf8");
  } catch (cause) {
    throw new LastrinseError(
      "unreadable",
      `Expected ${what}, could not read ${file}: ${cause instanceof Error ? cause.message : "failed"}.`,
      {
        remedy: `Check path and permissions of ${what}.`,
        input: file,
        cause,
      },
    );
  }
  const refuse = (received: string, cause?: unknown): never => {
    throw new LastrinseError("bad-json", `Expected ${what} in ${file}, received ${received}.`, {
      remedy,
      input: file,
      cause,
    });
  };
  let json: unknown;
  try {
    // Editors on some systems write a byte-order mark.
    json = JSON.parse(text.replace(/^\uFEFF/, ""));
  } catch (cause) {
    return refuse("text that is no JSON", cause);
  }
  const parsed = schema.safeParse(json);
  if (parsed.success) return parsed.data;
  return refuse(
    parsed.error.issues
      .map((issue) => `${issue.path.join(".") || "the whole"}: ${issue.message}`)
      .join("; "),
  );
}
