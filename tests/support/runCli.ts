import { spawn } from "node:child_process";
import { fileURLToPath } from "node:url";

const PROGRAM = fileURLToPath(new URL("../../dist/cli/lastrinse.js", import.meta.url));

export interface CliRun {
  readonly status: number | null;
  readonly stdout: string;
  readonly stderr: string;
}

/**
 * Runs the compiled command line as a user would.
 * @param environment Added to that of the tests. @param cwd Working folder. Default: that of the tests.
 */
export function runCli(
  words: readonly string[],
  environment: Readonly<Record<string, string>> = {},
  cwd?: string,
): Promise<CliRun> {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [PROGRAM, ...words], {
      cwd,
      env: { ...process.env, ...environment },
      stdio: ["ignore", "pipe", "pipe"],
    });
    let stdout = "";
    let stderr = "";
    child.stdout.on("data", (chunk: Buffer) => (stdout += chunk.toString("utf8")));
    child.stderr.on("data", (chunk: Buffer) => (stderr += chunk.toString("utf8")));
    child.on("error", reject);
    child.on("close", (status) => {
      resolve({ status, stdout, stderr });
    });
  });
}

/** The one JSON object on standard output. */
export function jsonOf(run: CliRun): unknown {
  return JSON.parse(run.stdout);
}
