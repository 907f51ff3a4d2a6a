import { readUserJson } from "../json/readUserJson.ts";
import { type InkCorrections, inkCorrectionsSchema } from "./inkCorrections.ts";
import { INK_CORRECTIONS_FILE } from "./parseInkCorrections.ts";

/**
 * Reads a file of ink corrections.
 * @throws {LastrinseError} `unreadable`; `bad-json` as {@link parseInkCorrections}.
 */
export async function readInkCorrections(file: string): Promise<InkCorrections> {
  const { corrections } = await readUserJson(file, inkCorrectionsSchema, INK_CORRECTIONS_FILE);
  return { file, steps: corrections };
}
