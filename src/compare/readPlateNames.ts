import { readUserJson } from "../json/readUserJson.ts";
import { plateNames, type PlateNames } from "./plateNames.ts";

/**
 * Reads which printing inks a press has.
 * @throws {LastrinseError} `unreadable`; `bad-json` naming path and line of each wrong entry.
 */
export function readPlateNames(file: string): Promise<PlateNames> {
  return readUserJson(file, plateNames, {
    what: "a file of plate names",
    remedy:
      'It holds "schema": "lastrinse.plate-names", "version": 1, and "plates": a list of the plates the press has, each with "id" yellow, red, blue or black and, for a spot ink in its stead, "name" with "place" or "lab".',
  });
}
