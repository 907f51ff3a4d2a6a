import { createHash } from "node:crypto";
import { lstatSync, readFileSync, readdirSync } from "node:fs";
import { join, relative } from "node:path";
import { expect } from "vitest";
import { runCli } from "../support/runCli.ts";

/** What the command line answered to a fault. */
export interface Answer {
  readonly status: number | null;
  readonly stdout: string;
  readonly stderr: string;
  /** Of the error object with `--json`; null where there is none. */
  readonly error: {
    readonly code: string;
    readonly message: string;
    readonly remedy: string;
  } | null;
  readonly json: Readonly<Record<string, unknown>>;
}

export interface AskOptions {
  /** Working folder. Default: that of the tests. */
  readonly cwd?: string;
  readonly env?: Readonly<Record<string, string>>;
}

/** Hash of every file (links are none) below a folder, by its relative path. */
export function filesBelow(folder: string): Record<string, string> {
  const found: Record<string, string> = {};
  for (const name of readdirSync(folder, { recursive: true, encoding: "utf8" })) {
    const path = join(folder, name);
    if (lstatSync(path).isFile())
      found[relative(folder, path)] = createHash("sha256").update(readFileSync(path)).digest("hex");
  }
  return found;
}

/** What nothing printed may hold: it could move the cursor, change colours or turn the reading direction. */
const TERMINAL_ORDERS =
  /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069]|\r(?!\n)/;

/**
 * Gives a command as a user would and checks what holds for every answer: no crash (status 1), no stack on standard error,
 * nothing that a terminal would obey, one JSON object where `--json` was asked for, and with a failure a code, a message and
 * a remedy.
 */
export async function ask(words: readonly string[], options: AskOptions = {}): Promise<Answer> {
  const answer = await runCli(words, options.env, options.cwd);
  const { status, stdout, stderr } = answer;
  expect(status, stderr).not.toBe(1);
  expect(status, stderr).not.toBeNull();
  expect(stderr).not.toMatch(/\n\s+at |node:internal/);
  expect(stdout + stderr).not.toMatch(TERMINAL_ORDERS);
  const json = (words.includes("--json") ? JSON.parse(stdout) : {}) as Answer["json"];
  const error = (json.error ?? null) as Answer["error"];
  if (error !== null) {
    expect(error.message).not.toBe("");
    expect(error.remedy).not.toBe("");
  }
  return { ...answer, error, json };
}

/** Status, code and message of a refusal, for comparing with what the table says. */
export async function refusalOf(words: readonly string[], options?: AskOptions) {
  const { status, error } = await ask([...words, "--json"], options);
  return [status, error?.code, error?.message ?? ""] as const;
}
