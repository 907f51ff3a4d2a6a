import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";
import { jsonOf, runCli } from "../support/runCli.ts";
import { temporaryFolder } from "../support/temporaryFolder.ts";

const folder = temporaryFolder();
const sample = (name: string): string =>
  fileURLToPath(new URL(`../../sample-images/${name}`, import.meta.url));

interface JarAnswer {
  readonly fade: Readonly<Record<string, unknown>>;
  readonly nextBath: unknown;
  readonly advice: {
    readonly verdict: string;
    readonly reasons: readonly { readonly code: string; readonly text: string }[];
    readonly riskOfExceeding: Readonly<Record<string, number | null>>;
  };
}

type Json = Record<string, unknown> & {
  readonly baths: readonly Record<string, unknown>[];
  readonly inks: readonly Record<string, unknown>[];
};

/** The sample's first bath by `jar`, the evidence changed. */
async function jar(name: string, change: (evidence: Json) => object): Promise<JarAnswer> {
  const evidence = JSON.parse(readFileSync(sample("evidence.json"), "utf8")) as Json;
  const file = join(folder, `${name}.json`);
  writeFileSync(file, JSON.stringify({ ...evidence, ...change(evidence) }));
  const run = await runCli([
    "jar",
    sample("jar-bath-1.jpg"),
    "--blank",
    sample("jar-blank.jpg"),
    "--station",
    sample("station.json"),
    "--evidence",
    file,
    "--json",
  ]);
  expect(run.status).toBe(0);
  return jsonOf(run) as JarAnswer;
}

const BATH = { kind: "rinse", surfactant: false, minutes: 5, temperatureC: 38, ph: 8.5 };
const fast = ({ inks }: Json) => inks.map((ink) => ({ ...ink, blot: "fast" }));

describe("jar: what the evidence file leaves open stays open", () => {
  test("no volume: no fade, no forecast, and the field that is missing is named", async () => {
    const result = await jar("no-volume", (evidence) => ({
      bathVolumeMl: undefined,
      inks: fast(evidence),
      baths: [BATH],
    }));
    expect(result.advice.verdict).toBe("not-decidable");
    expect(Object.values(result.fade)).toEqual([null, null, null, null]);
    expect(result.nextBath).toBeNull();
    expect(Object.values(result.advice.riskOfExceeding)).toEqual([null, null, null, null]);
    expect(result.advice.reasons.find(({ code }) => code === "volume-unknown")?.text).toContain(
      'Add it: "volumeMl" of bath 1 in the evidence file',
    );
  });

  test("surfactant not stated: rinse first", async () => {
    const result = await jar("no-surfactant", () => ({
      baths: [{ ...BATH, kind: "wash", surfactant: undefined }],
    }));
    expect(result.advice.verdict).toBe("rinse-first");
    expect(result.advice.reasons[0].text).toContain("not stated whether");
  });

  test("an ink without a blotter test: no go-ahead, and no ink's loss can be told", async () => {
    const known = await jar("all-fast", (evidence) => ({ inks: fast(evidence), baths: [BATH] }));
    expect(Object.values(known.fade).every((fade) => fade !== null)).toBe(true);
    const result = await jar("untested", (evidence) => ({
      inks: evidence.inks.map((ink) => ({ ...ink, blot: ink.id === "red" ? "untested" : "fast" })),
      baths: [BATH],
    }));
    expect(result.advice.verdict).toBe("not-decidable");
    expect(result.advice.reasons[0].text).toContain("Red counts as untested");
    expect(Object.values(result.advice.riskOfExceeding)).toEqual([null, null, null, null]);
  });
});
