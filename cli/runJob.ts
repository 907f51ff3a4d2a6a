import type { DryRun } from "../src/results/dryRun.ts";
import type { CommonOptions, Job } from "./context.ts";
import { plainLine, plainText } from "./plainText.ts";
import { progressOnStderr } from "./progressOnStderr.ts";
import { toJson } from "./toJson.ts";
import { claimOutputs, writeOutputs } from "./writeOutputs.ts";

function print(text: string): void {
  const plain = plainText(text);
  process.stdout.write(plain.endsWith("\n") ? plain : `${plain}\n`);
}

function say(text: string): void {
  process.stderr.write(`${plainLine(text)}\n`);
}

function describeDryRun(job: Job, options: CommonOptions): { json: DryRun; text: string } {
  const folder = options.out ?? null;
  const files = folder === null ? [] : job.outputs;
  return {
    json: { schema: "lastrinse.dry-run", version: 1, folder, files },
    text:
      files.length === 0
        ? "Nothing would be written."
        : [`Would be written to ${String(folder)}:`, ...files.map((name) => `  ${name}`)].join(
            "\n",
          ),
  };
}

/** Runs one command from claimed outputs to printed result. Returns the exit status. */
export async function runJob(job: Job, options: CommonOptions): Promise<number> {
  if (options.dryRun) {
    const { json, text } = describeDryRun(job, options);
    print(options.json ? toJson(json) : text);
    return 0;
  }
  if (options.out !== undefined)
    await claimOutputs(options.out, job.owned ?? job.outputs, options.overwrite);
  const progress = progressOnStderr(options.progress && !options.quiet);
  const result = await job.run(progress).finally(() => {
    progress.stop();
  });
  if (options.out !== undefined && result.files !== undefined) {
    await writeOutputs(options.out, result.files, options.overwrite, job.owned);
    if (!options.quiet) say(`Written to ${options.out}: ${Object.keys(result.files).join(", ")}`);
  }
  print(options.json ? toJson(result.json) : result.text);
  return result.exitStatus ?? 0;
}
