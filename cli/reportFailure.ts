import { CommanderError } from "commander";
import { LastrinseError } from "../src/errors.ts";
import type { ErrorResult } from "../src/results/errorResult.ts";
import { plainLine } from "./plainText.ts";

export interface Failure {
  readonly exitStatus: number;
  readonly json: ErrorResult;
  readonly text: string;
}

function describeFailure(
  code: ErrorResult["error"]["code"],
  message: string,
  remedy: string,
  input: string | null,
  exitStatus: number,
): Failure {
  return {
    exitStatus,
    json: {
      schema: "lastrinse.error",
      version: 1,
      error: { code, message, remedy, input },
    },
    text: `lastrinse: ${plainLine(message)}\n  What to do: ${plainLine(remedy)}\n  (${code})`,
  };
}

const SEE_HELP = "Run the command with --help to see its options and examples.";
const IS_A_DEFECT =
  "This is a defect of lastrinse. Run again with --debug and report what it prints; no input was changed.";

/** The one place where anything thrown becomes an exit status, a JSON object and a text. */
export function reportFailure(error: unknown): Failure {
  if (error instanceof LastrinseError)
    return describeFailure(error.code, error.message, error.remedy, error.input, error.exitStatus);
  if (error instanceof CommanderError)
    return describeFailure("wrong-use", error.message.replace(/^error: /, ""), SEE_HELP, null, 2);
  const message = error instanceof Error ? error.message : String(error);
  return describeFailure("internal", `Unexpected failure: ${message}`, IS_A_DEFECT, null, 1);
}
