import { spawn } from "node:child_process";
import { existsSync } from "node:fs";
import { setTimeout } from "node:timers/promises";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";
import { temporaryFolder } from "../support/temporaryFolder.ts";

const folder = temporaryFolder();
const PROGRAM = fileURLToPath(new URL("../../dist/cli/lastrinse.js", import.meta.url));
const sample = (name: string): string =>
  fileURLToPath(new URL(`../../sample-images/${name}`, import.meta.url));

test("an interrupted comparison ends with status 130 and leaves no folder that it made", async () => {
  const out = join(folder, "new", "deeper");
  const child = spawn(
    process.execPath,
    [PROGRAM, "compare", sample("before.png"), sample("after.png"), "--out", out],
    { stdio: "ignore" },
  );
  const status = new Promise<number | null>((done) => child.on("close", done));
  // The folder is made before the long work starts: interrupted as soon as it is there.
  while (child.exitCode === null && !existsSync(out)) await setTimeout(20);
  child.kill("SIGINT");
  expect(await status).toBe(130);
  expect(existsSync(join(folder, "new"))).toBe(false);
  expect(existsSync(folder)).toBe(true);
});
