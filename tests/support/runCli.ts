import { deepStrictEqual } from "node:assert";
import { spawn } from "node:child_process";
import { fileURLToPath } from "node:url";
import { RESULT_SCHEMAS, type ResultName } from "../../src/results/resultSchemas.ts";

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

/** The one JSON object on standard output, which must hold just what the schema of its name describes. */
export function jsonOf(run: CliRun): unknown {
  const printed: unknown = JSON.parse(run.stdout);
  const name = (printed as { readonly schema: string }).schema.replace("lastrinse.", "");
  // The schema drops fields it does not know: equal means that it knows them all.
  deepStrictEqual(RESULT_SCHEMAS[name as ResultName].parse(printed), printed);
  return printed;
}
