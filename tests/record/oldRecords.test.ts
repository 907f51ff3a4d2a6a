import { cpSync, readFileSync, readdirSync, symlinkSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { beforeAll, describe, expect, test } from "vitest";
import { readVersion } from "../../cli/readVersion.ts";
import { toJson } from "../../cli/toJson.ts";
import { assessTreatment } from "../../src/record/assessTreatment.ts";
import { openRecord } from "../../src/record/openRecord.ts";
import { jsonOf, runCli } from "../support/runCli.ts";
import { temporaryFolder } from "../support/temporaryFolder.ts";

const here = (path: string): string => fileURLToPath(new URL(path, import.meta.url));
const folder = temporaryFolder();
const record = (name: string): string => join(folder, "records", name);

beforeAll(() => {
  // The inputs of these records lie two folders above them.
  symlinkSync(here("../../sample-images"), join(folder, "sample-images"));
  cpSync(here("old-records"), join(folder, "records"), { recursive: true });
});

/** Every file under `events/`, by name. */
function filesOf(name: string): Record<string, string> {
  const events = join(record(name), "events");
  return Object.fromEntries(
    readdirSync(events)
      .sort()
      .map((file) => [file, readFileSync(join(events, file), "utf8")]),
  );
}

describe("a record of the first release", () => {
  test.each([
    ["washed", 13],
    ["unsaid", 6],
  ])("%s: opens whole, every input as it was", async (name, count) => {
    const { events, damaged, warnings } = await openRecord(record(name), "test");
    expect(damaged).toEqual([]);
    expect(warnings).toEqual([]);
    expect(events.map(({ id }) => Number(id))).toEqual(
      Array.from({ length: count }, (_, i) => i + 1),
    );
  });

  test("corrections made then still hold: a withdrawn test is none, a corrected time counts", async () => {
    const { treatment } = await openRecord(record("washed"), "test");
    expect(treatment.blots.map(({ settings }) => [settings.ink, settings.result])).toEqual([
      ["red", null],
      ["blue", null],
      ["yellow", null],
      ["black", "fast"],
    ]);
    expect(treatment.baths.map(({ settings }) => settings.minutes)).toEqual([5, 4, 4]);
  });

  test("its advice is that of now, and nothing under events/ changes", async () => {
    const before = filesOf("washed");
    const said = await runCli(["advise", record("washed"), "--json"]);
    expect(said.status, said.stderr).toBe(0);
    const printed = jsonOf(said) as {
      readonly baths: number;
      readonly advice: { readonly verdict: string; readonly riskOfExceeding: object };
    };
    const { advice, baths } = printed;
    expect(baths).toBe(3);
    expect(Object.keys(advice.riskOfExceeding).sort()).toEqual(["black", "blue", "red", "yellow"]);
    // The red of this cover was doubtful and is in the jar: no release may allow a fourth bath.
    expect(advice.verdict).not.toBe("continue");
    const { assessment } = await assessTreatment(await openRecord(record("washed"), readVersion()));
    expect(printed).toEqual(JSON.parse(toJson({ ...printed, advice: assessment.advice })));
    const reported = await runCli(["report", record("washed"), "--quiet"]);
    expect(reported.status, reported.stderr).toBe(0);
    expect(filesOf("washed")).toEqual(before);
  });

  test("goes on with new events, the old ones untouched", async () => {
    const before = filesOf("unsaid");
    const { assessment } = await assessTreatment(await openRecord(record("unsaid"), "test"));
    // Nothing was said of the last bath, and an ink was seen to bleed.
    expect(["lift", "rinse-first"]).toContain(assessment.advice.verdict);
    const added = await runCli(["step", record("unsaid"), "--what", "found again in a drawer"]);
    expect(added.status, added.stderr).toBe(0);
    const { "000007.json": added7, ...old } = filesOf("unsaid");
    expect(JSON.parse(added7)).toMatchObject({ id: "000007", kind: "step" });
    expect(old).toEqual(before);
  });
});
