import { InvalidArgumentError } from "commander";
import type { SolidPlace } from "../src/compare/pickedInks.ts";

/** NAME=x,y, for commander: one more place that is an ink's solid. */
export function addSolid(text: string, before: readonly SolidPlace[] = []): readonly SolidPlace[] {
  const found = /^\s*([^=]+?)\s*=\s*(\d+(?:\.\d+)?)\s*,\s*(\d+(?:\.\d+)?)\s*$/.exec(text);
  if (found === null)
    throw new InvalidArgumentError(
      "Expected NAME=x,y: a printing ink, and a place of the before scan in pixels, such as red=812,1040.",
    );
  return [...before, { name: found[1], x: Number(found[2]), y: Number(found[3]) }];
}
