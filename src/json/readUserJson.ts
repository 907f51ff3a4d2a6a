import type { z } from "zod";
import { LastrinseError } from "../errors.ts";
import { parseUserJson, type UserFile } from "./parseUserJson.ts";
import { readSmallFile } from "./readSmallFile.ts";

/**
 * Reads a JSON file of the user's and checks it against a schema.
 * @throws {LastrinseError} `unreadable`; `bad-json` naming path and line of each wrong entry.
 */
export async function readUserJson<Schema extends z.ZodType>(
  file: string,
  schema: Schema,
  userFile: UserFile,
): Promise<z.infer<Schema>> {
  return parseUserJson(await textOf(file, userFile), file, schema, userFile);
}

async function textOf(file: string, { what }: UserFile): Promise<string> {
  try {
    return (await readSmallFile(file)).toString("utf8");
  } catch (cause) {
    throw new LastrinseError(
      "unreadable",
      `Expected ${what}, could not read ${file}: ${cause instanceof Error ? cause.message : "failed"}.`,
      { remedy: `Check path and permissions of ${what}.`, input: file, cause },
    );
  }
}
