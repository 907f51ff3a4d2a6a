import { execFile } from "node:child_process";
import { readFile, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { promisify } from "node:util";
import { expect, it } from "vitest";
import { temporaryFolder } from "./support/temporaryFolder.ts";

const ROOT = fileURLToPath(new URL("..", import.meta.url));
const LIBRARY = new URL("../dist/src/index.js", import.meta.url).href;

it("the library example of the README runs as it stands there", { timeout: 120_000 }, async () => {
  const readme = await readFile(join(ROOT, "README.md"), "utf8");
  const example = /## Use as a library[^]*?```js\n([^]*?)```/.exec(readme)?.[1] ?? "";
  expect(example).toContain('from "lastrinse"');
  const file = join(temporaryFolder(), "example.mjs");
  await writeFile(file, example.replace('"lastrinse"', JSON.stringify(LIBRARY)));
  const { stdout, stderr } = await promisify(execFile)(process.execPath, [file], { cwd: ROOT });
  expect(stderr).toBe("");
  // The sample's red lost ink, its black did not.
  expect(stdout).toMatch(/^red .* ink lost$/m);
  expect(stdout).not.toMatch(/^black .* ink lost$/m);
});
