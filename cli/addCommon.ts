import type { Command } from "commander";
import type { CommonOptions, Job } from "./context.ts";
import { runJob } from "./runJob.ts";

export type SetExitStatus = (status: number) => void;

/** Gives a command the options that every command has. */
export function addCommon(command: Command): Command {
  return command
    .option("--json", "print one JSON object on standard output", false)
    .option("--out <folder>", "write the files of the result into this folder")
    .option("--overwrite", "allow files of the same name in that folder to be replaced", false)
    .option("--strict", "refuse where an assumption would have to be made", false)
    .option("--dry-run", "list what would be written, and stop", false)
    .option("--quiet", "no notes and no progress on standard error", false)
    .option("--no-progress", "no progress on standard error")
    .option("--debug", "print the stack of a failure", false);
}

/**
 * Ends a command: its options and arguments become a job, the job is run.
 * @param settings.defaultFolder Written to, and written over, where `--out` is left out; may depend on the command's arguments.
 */
export function runsJob<Options extends CommonOptions>(
  command: Command,
  setExitStatus: SetExitStatus,
  prepare: (words: readonly (string | undefined)[], options: Options) => Job | Promise<Job>,
  {
    defaultFolder,
  }: {
    readonly defaultFolder?: string | ((words: readonly (string | undefined)[]) => string);
  } = {},
): Command {
  return addCommon(command).action(async (...received: unknown[]) => {
    const words = received.slice(0, -2) as (string | undefined)[];
    const given = received.at(-2) as Options;
    const folder = typeof defaultFolder === "function" ? defaultFolder(words) : defaultFolder;
    const options: Options =
      given.out === undefined && folder !== undefined
        ? { ...given, out: folder, overwrite: true }
        : given;
    setExitStatus(await runJob(await prepare(words, options), options));
  });
}
