import type { Command } from "commander";
import type { SolidPlace } from "../src/compare/pickedInks.ts";
import { oneOf } from "./parse.ts";
import { addSolid } from "./parseSolid.ts";

/** What a user may know of the print, as these options give it. */
export interface PrintOptions {
  readonly inks?: string;
  readonly paper?: string;
  readonly plates?: "auto" | "none";
  readonly solid?: readonly SolidPlace[];
  readonly plateNames?: string;
}

/** Adds what a user may know of the print: the same for a comparison and for a before scan of a record. */
export function addPrintOptions(command: Command): Command {
  return command
    .option("--inks <file>", "your corrections of the ink regions")
    .option(
      "--paper <x,y,w,h or L,a,b>",
      "a bare place of the before scan in pixels, or the bare paper's CIELAB D50, where the art leaves none",
    )
    .option(
      "--plates <choice>",
      "tell the printing inks behind the colours apart: auto (default) or none",
      oneOf("auto", "none"),
    )
    .option(
      "--solid <name=x,y>",
      "a place of the before scan, in pixels, that is the solid of yellow, red, blue or black; repeatable",
      addSolid,
    )
    .option(
      "--plate-names <file>",
      "the printing inks that the press has, and spot inks by name, where it is not the usual four",
    );
}
