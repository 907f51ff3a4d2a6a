import { parseUserJson, type UserFile } from "../json/parseUserJson.ts";
import { type InkCorrections, inkCorrectionsSchema } from "./inkCorrections.ts";

export const INK_CORRECTIONS_FILE: UserFile = {
  what: "ink corrections (schema lastrinse.inks, version 1)",
  remedy:
    'Write it as {"schema":"lastrinse.inks","version":1,"corrections":[{"action":"rename","ink":"red","to":"title red"}]}; ' +
    "actions are rename, merge, split, exclude and kind.",
};

/**
 * Reads the user's corrections of the ink regions.
 * @param text The file's text: JSON after the schema `lastrinse.inks`, version 1.
 * @param fileName For messages.
 * @throws {LastrinseError} `bad-json`, naming the line where the text is no JSON, or path and line of each wrong entry.
 */
export function parseInkCorrections(text: string, fileName: string): InkCorrections {
  const { corrections } = parseUserJson(text, fileName, inkCorrectionsSchema, INK_CORRECTIONS_FILE);
  return { file: fileName, steps: corrections };
}
