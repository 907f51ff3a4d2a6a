import { CommanderError } from "commander";
import { closeVision } from "../src/vision/pool.ts";
import { buildProgram } from "./program.ts";
import { plainText } from "./plainText.ts";
import { reportFailure } from "./reportFailure.ts";
import { toJson } from "./toJson.ts";

/** Commander throws these for --help and --version: they are no failures. */
const ASKED_FOR_TEXT = new Set(["commander.helpDisplayed", "commander.version"]);

/** And this one where a command was left out: its help is the answer, and it is wrong use. */
const COMMAND_LEFT_OUT = "commander.help";

const INTERRUPTED = 130;

/**
 * Runs one command line.
 * @param words The arguments after the program's name.
 * @returns The exit status : 0 done, 1 defect, 2 wrong use, 3 unreadable, 4 refused, 5 by advice.
 */
export async function runCommandLine(words: readonly string[]): Promise<number> {
  process.once("SIGINT", () => process.exit(INTERRUPTED));
  let exitStatus = 0;
  const program = buildProgram((status) => {
    exitStatus = status;
  });
  try {
    await program.parseAsync(words, { from: "user" });
    return exitStatus;
  } catch (error) {
    if (error instanceof CommanderError && ASKED_FOR_TEXT.has(error.code)) return error.exitCode;
    const failure = reportFailure(
      error instanceof CommanderError && error.code === COMMAND_LEFT_OUT
        ? new CommanderError(2, error.code, "Expected a command, received none.")
        : error,
    );
    if (words.includes("--json")) process.stdout.write(`${toJson(failure.json)}\n`);
    else process.stderr.write(`${failure.text}\n`);
    if (words.includes("--debug") && error instanceof Error)
      process.stderr.write(`${plainText(error.stack ?? "")}\n`);
    return failure.exitStatus;
  } finally {
    await closeVision();
  }
}
