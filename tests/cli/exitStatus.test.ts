import { createHash } from "node:crypto";
import { existsSync, readFileSync, readdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";
import { encodePng } from "../../src/picture/encodePng.ts";
import { jsonOf, runCli } from "../support/runCli.ts";
import { temporaryFolder } from "../support/temporaryFolder.ts";

const folder = temporaryFolder();
const sample = (name: string): string =>
  fileURLToPath(new URL(`../../sample-images/${name}`, import.meta.url));

async function plainPicture(name: string): Promise<string> {
  const path = join(folder, name);
  const data = new Uint8Array(3 * 200 * 300).fill(180);
  writeFileSync(path, await encodePng({ width: 200, height: 300, channels: 3, data }, 150));
  return path;
}

describe("exit status and the error object on standard output", () => {
  const refusals: {
    name: string;
    words: () => Promise<string[]> | string[];
    status: number;
    code: string;
  }[] = [
    { name: "no such command", words: () => ["scrub", "--json"], status: 2, code: "wrong-use" },
    {
      name: "a required option left out",
      words: () => ["recipe", "--volume-ml", "500", "--json"],
      status: 2,
      code: "wrong-use",
    },
    {
      name: "a number with a decimal comma",
      words: () => ["recipe", "--volume-ml", "0,5", "--json"],
      status: 2,
      code: "wrong-use",
    },
    {
      name: "corners that are no points",
      words: () => ["card", "check", sample("before.png"), "--corners", "1,2 3", "--json"],
      status: 2,
      code: "wrong-use",
    },
    {
      name: "an unknown card",
      words: () => ["card", "show", "no-such-card", "--json"],
      status: 2,
      code: "wrong-use",
    },
    {
      name: "a missing scan",
      words: () => ["compare", join(folder, "none.png"), join(folder, "none.png"), "--json"],
      status: 3,
      code: "unreadable",
    },
    {
      name: "a picture without a card",
      words: async () => ["card", "check", await plainPicture("plain.png"), "--json"],
      status: 4,
      code: "card-not-found",
    },
    {
      name: "wet against dry",
      words: () => [
        "compare",
        sample("before.png"),
        sample("after.png"),
        "--before-state",
        "dry",
        "--after-state",
        "wet",
        "--json",
      ],
      status: 4,
      code: "frames-differ",
    },
  ];

  test.each(refusals)("$name: $code", async ({ words, status, code }) => {
    const run = await runCli(await words());
    expect(run.status).toBe(status);
    const { schema, version, error } = jsonOf(run) as {
      schema: string;
      version: number;
      error: Record<string, unknown>;
    };
    expect({ schema, version, code: error.code }).toEqual({
      schema: "lastrinse.error",
      version: 1,
      code,
    });
    expect(Object.keys(error)).toEqual(["code", "message", "remedy", "input"]);
    expect(error.remedy).not.toBe("");
    expect(run.stderr).not.toMatch(/\n\s+at /);
  });

  test("without --json the message and the remedy go to standard error, nothing to standard output", async () => {
    const run = await runCli(["compare", join(folder, "none.png"), join(folder, "none.png")]);
    expect(run.status).toBe(3);
    expect(run.stdout).toBe("");
    expect(run.stderr).toContain("What to do:");
  });

  test("help and version are answers, not failures", async () => {
    for (const words of [["--help"], ["compare", "--help"], ["card", "check", "--help"]]) {
      const run = await runCli(words);
      expect(run.status).toBe(0);
      expect(run.stdout).toContain("Usage: lastrinse");
    }
    const { version } = JSON.parse(
      readFileSync(new URL("../../package.json", import.meta.url), "utf8"),
    ) as { version: string };
    expect((await runCli(["--version"])).stdout.trim()).toBe(version);
  });
});

describe("files", () => {
  test("sheets are written, never over a file unless told, and a dry run writes nothing", async () => {
    const out = join(folder, "sheets");
    const dry = await runCli(["card", "sheet", "--out", out, "--dry-run", "--json"]);
    expect(jsonOf(dry)).toMatchObject({ schema: "lastrinse.dry-run", folder: out });
    expect(existsSync(out)).toBe(false);

    expect((await runCli(["card", "sheet", "--out", out, "--json"])).status).toBe(0);
    const names = readdirSync(out);
    expect(names.sort()).toEqual(
      ["jar-backing.pdf", "jar-backing.svg", "strip-card.pdf", "strip-card.svg"].sort(),
    );
    writeFileSync(join(out, "strip-card.svg"), "mine");
    const again = await runCli(["card", "sheet", "--out", out, "--json"]);
    expect(again.status).toBe(2);
    expect(jsonOf(again)).toMatchObject({ error: { code: "output-exists" } });
    expect(readFileSync(join(out, "strip-card.svg"), "utf8")).toBe("mine");
    expect((await runCli(["card", "sheet", "--out", out, "--overwrite"])).status).toBe(0);
    expect(readFileSync(join(out, "strip-card.svg"), "utf8")).toContain("<svg");
  });

  test("no input is changed by a check that is refused", async () => {
    const path = await plainPicture("untouched.png");
    const hash = (): string => createHash("sha256").update(readFileSync(path)).digest("hex");
    const before = hash();
    await runCli(["card", "check", path]);
    expect(hash()).toBe(before);
  });
});

describe("the same answer everywhere", () => {
  test("language and time zone change no byte", async () => {
    const words = [
      "recipe",
      "--volume-ml",
      "500",
      "--limewater-share",
      "5",
      "--temperature-c",
      "25",
      "--json",
    ];
    const runs = await Promise.all([
      runCli(words),
      runCli(words, { LANG: "de_DE.UTF-8", LC_ALL: "de_DE.UTF-8", TZ: "Asia/Kolkata" }),
      runCli(words, { LANG: "ar_EG.UTF-8", LC_ALL: "ar_EG.UTF-8", TZ: "America/St_Johns" }),
    ]);
    expect(new Set(runs.map((run) => run.stdout)).size).toBe(1);
  });
});
