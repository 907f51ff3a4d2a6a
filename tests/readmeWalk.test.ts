import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { closeVision } from "../src/vision/pool.ts";
import { callCli } from "./support/callCli.ts";
import { jsonOf } from "./support/runCli.ts";
import { temporaryFolder } from "./support/temporaryFolder.ts";

/** The walk needs a comparison of the sample pair. */
const LONG_MS = 240_000;

const ROOT = fileURLToPath(new URL("..", import.meta.url));
const folder = temporaryFolder();
const record = join(folder, "my-cover");

/** The command lines of the README's walk, as a shell would split them; the record and the bench go into a folder of the test. */
const LINES = (() => {
  const readme = readFileSync(join(ROOT, "README.md"), "utf8");
  const walk = /## A treatment, command by command[^]*?```\n([^]*?)```/.exec(readme)?.[1] ?? "";
  return walk
    .split("\n")
    .filter((line) => line.startsWith("lastrinse "))
    .map((line) =>
      [...line.matchAll(/"([^"]*)"|(\S+)/g)].slice(1).map(([, quoted, plain]) => {
        const word = quoted ?? plain;
        if (word === "my-cover" || word === "my-bench") return join(folder, word);
        return word.startsWith("sample-images/") ? join(ROOT, word) : word;
      }),
    );
})();

interface Said {
  readonly stdout: string;
  readonly verdict: string;
}

describe("the README's walk obeys its own tool", () => {
  /** By command line: what it printed, and the advice that stood after it. */
  const said: Said[] = [];

  beforeAll(async () => {
    for (const words of LINES) {
      const { status, stdout, stderr } = await callCli(words);
      expect(status, `${words.join(" ")}\n${stderr}`).toBe(0);
      const asked = words[0] === "bath" || words[0] === "advise";
      const advised = asked ? jsonOf(await callCli(["advise", record, "--json"])) : null;
      const { advice } = (advised ?? { advice: { verdict: "" } }) as { advice: Said };
      said.push({ stdout, verdict: advice.verdict });
    }
  }, LONG_MS);
  afterAll(closeVision);

  const verdictsOf = (command: string): string[] =>
    said.filter((_, i) => LINES[i][0] === command).map(({ verdict }) => verdict);

  test("undecided before the first bath, then rinse, one more, and stop: no bath follows a stop", () => {
    expect(verdictsOf("advise")).toEqual(["not-decidable"]);
    expect(verdictsOf("bath")).toEqual(["rinse-first", "continue", "stop"]);
  });

  test("the first bath is the two minutes at the owner's own risk that the tool named", () => {
    const first = LINES.find(([command]) => command === "bath") ?? [];
    expect(first[first.indexOf("--minutes") + 1]).toBe("2");
    const advised = said.find((_, i) => LINES[i][0] === "advise")?.stdout ?? "";
    expect(advised).toContain("a first bath of two minutes");
  });

  test("the dry scan says what the bench learned, or why it learned nothing", () => {
    const after = said.find((_, i) => LINES[i][0] === "after")?.stdout ?? "";
    expect(after).toMatch(/The bench has learned (from|nothing)/);
    expect(after).toMatch(/red: the middle of its prediction/);
  });

  test("no file of pixel places is needed, and the last page is there", () => {
    expect(LINES.flat().join(" ")).not.toMatch(/--station|--corners|--spot-box|--inks/);
    expect(existsSync(join(record, "report", "report.html"))).toBe(true);
  });
});
