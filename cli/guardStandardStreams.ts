import { LastrinseError } from "../src/errors.ts";
import { reportFailure } from "./reportFailure.ts";

function errorCode(error: Error): string {
  return "code" in error ? String(error.code) : error.message;
}

/**
 * A result that can't be printed must not end in a crash. A reader who has seen enough (`| head`) is no failure; a full disk
 * behind `> file` is one, status 3.
 */
export function guardStandardStreams(): void {
  let failure: LastrinseError | undefined;
  process.stdout.on("error", (cause: Error) => {
    const code = errorCode(cause);
    if (code === "EPIPE" || failure !== undefined) return;
    failure = new LastrinseError(
      "output-unwritable",
      `Expected to print the whole result on standard output, received the error ${code}.`,
      {
        remedy: "Make room on the disk, or send the output to another place, then run again.",
        cause,
      },
    );
    process.stderr.write(`${reportFailure(failure).text}\n`);
  });
  // Where nothing can be said, the exit status still says it.
  process.stderr.on("error", () => undefined);
  process.on("exit", () => {
    if (failure !== undefined) process.exitCode = failure.exitStatus;
  });
}
