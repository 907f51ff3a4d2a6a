import { readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { beforeAll, describe, expect, test } from "vitest";
import type { CompareResult } from "../../src/results/compareResult.ts";
import { readScan } from "../../src/raster/readScan.ts";
import { jsonOf, runCli } from "../support/runCli.ts";
import { temporaryFolder } from "../support/temporaryFolder.ts";

const folder = temporaryFolder();
const sample = (name: string): string =>
  fileURLToPath(new URL(`../../sample-images/${name}`, import.meta.url));

interface Truth {
  readonly paper: { readonly deltaL: number; readonly deltaB: number };
  readonly inks: readonly {
    readonly id: string;
    readonly deltaE00: number;
    readonly inkPartDeltaE00: number;
  }[];
}

describe("the sample pair, whole compare (truth by construction, CIEDE2000)", () => {
  const truth = JSON.parse(readFileSync(sample("truth.json"), "utf8")) as Truth;
  const out = join(folder, "pair");
  let result: CompareResult;

  beforeAll(async () => {
    const run = await runCli([
      "compare",
      sample("before.png"),
      sample("after.png"),
      "--before-state",
      "dry",
      "--after-state",
      "dry",
      "--out",
      out,
      "--json",
    ]);
    expect(run.stderr).not.toContain("What to do");
    result = jsonOf(run) as CompareResult;
  });

  test("every ink that the drawing names is found, and its dE00 is within 0.5 of truth", () => {
    const found = truth.inks.filter(({ id }) => result.inks.some((ink) => ink.id === id));
    // The drawing calls its dark overprint violet-brown; a name is a matter of words.
    expect(found.length).toBeGreaterThanOrEqual(truth.inks.length - 1);
    for (const { id, deltaE00, inkPartDeltaE00 } of found) {
      const ink = result.inks.find((candidate) => candidate.id === id);
      expect(Math.abs((ink?.deltaE00 ?? NaN) - deltaE00), id).toBeLessThanOrEqual(0.5);
      expect(Math.abs((ink?.inkPartDeltaE00 ?? NaN) - inkPartDeltaE00), id).toBeLessThanOrEqual(
        0.5,
      );
    }
  });

  test("the red that lost 12 % is called lost, the black that lost nothing is not", () => {
    const verdict = (id: string) => result.inks.find((ink) => ink.id === id)?.verdict;
    expect(verdict("red")).toBe("ink-lost");
    expect(verdict("black")).not.toBe("ink-lost");
  });

  test("the paper is lighter by what was drawn, within its own floor and 0.5", () => {
    expect(result.paper?.verdict).toBe("lighter");
    expect(Math.abs((result.paper?.deltaL ?? NaN) - truth.paper.deltaL)).toBeLessThan(0.5);
    expect(Math.abs((result.paper?.deltaB ?? NaN) - truth.paper.deltaB)).toBeLessThan(0.5);
  });

  test("every figure has its uncertainty", () => {
    for (const ink of result.inks) {
      if (ink.deltaE00 === null) continue;
      expect(ink.floorDeltaE00).toBeGreaterThan(0);
      expect(ink.deltaE00Low).toBeLessThanOrEqual(ink.deltaE00);
      expect(ink.deltaE00High).toBeGreaterThanOrEqual(ink.deltaE00);
    }
    expect(result.registration.points.length).toBeGreaterThanOrEqual(30);
  });

  test("the files agree with the result: label picture, table, page", async () => {
    const written = JSON.parse(readFileSync(join(out, "result.json"), "utf8")) as CompareResult;
    expect(written).toEqual(result);
    const csv = readFileSync(join(out, "inks.csv"), "utf8").split("\r\n");
    expect(csv[0].split(",").slice(0, 3)).toEqual(["id", "kind", "area_cm2"]);
    expect(csv.filter((line) => line !== "")).toHaveLength(result.inks.length + 2);
    const page = readFileSync(join(out, "report.html"), "utf8");
    expect(page).toContain("Content-Security-Policy");
    expect(page).not.toMatch(/(src|href)="(?!data:|#)/);
    // The label picture is grey: readScan refuses it for colour work, which shows that it is.
    await expect(readScan(join(out, "inks.png"))).rejects.toMatchObject({
      code: "unsupported-format",
    });
  });
});
