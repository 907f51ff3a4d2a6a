import { vi } from "vitest";
import { runCommandLine } from "../../cli/runCommandLine.ts";
import type { CliRun } from "./runCli.ts";

/**
 * Runs one command line within the test's own process: quicker than a program of its own where many commands follow one another.
 * One at a time, for what it prints is caught from the process.
 */
export async function callCli(words: readonly string[]): Promise<CliRun> {
  const printed = { stdout: "", stderr: "" };
  const spies = (["stdout", "stderr"] as const).map((name) =>
    vi.spyOn(process[name], "write").mockImplementation((text) => {
      printed[name] += String(text);
      return true;
    }),
  );
  const listeners = process.listeners("SIGINT");
  try {
    return { status: await runCommandLine(words), ...printed };
  } finally {
    spies.forEach((spy) => {
      spy.mockRestore();
    });
    for (const listener of process.listeners("SIGINT"))
      if (!listeners.includes(listener)) process.off("SIGINT", listener);
  }
}
