import { readFileSync, readdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, describe, expect, test } from "vitest";
import { jsonOf, runCli } from "../support/runCli.ts";
import { temporaryFolder } from "../support/temporaryFolder.ts";

const folder = temporaryFolder();

interface AdviceAnswer {
  readonly schema: string;
  readonly baths: number;
  readonly advice: {
    readonly verdict: string;
    readonly sheetNow: string;
    readonly mustDo: readonly string[];
    readonly reasons: readonly { readonly text: string }[];
  };
}

const advise = async (record: string): Promise<AdviceAnswer> =>
  jsonOf(await runCli(["advise", record, "--json"])) as AdviceAnswer;

const LIQUID = ["--surfactant", "--ph", "8.5", "--temperature-c", "38", "--minutes", "5"];
const BATH = ["--volume-ml", "500", "--ph-in", "8.5", "--temperature-c", "38", "--minutes", "5"];

describe("a record without any scan: blotter tests and conditions alone", () => {
  const record = join(folder, "tests-alone");

  beforeAll(async () => {
    await runCli(["open", record, "--title", "Tests alone"]);
  });

  test("nothing tested: not decidable, and the sheet stays dry", async () => {
    const { schema, advice, baths } = await advise(record);
    expect(schema).toBe("lastrinse.advice");
    expect(baths).toBe(0);
    expect(advice.verdict).toBe("not-decidable");
    expect(advice.sheetNow).toBe("not-in-water");
  });

  test("an ink that bleeds in the blotter test: do not immerse, exit 5 only when asked", async () => {
    await runCli(["blot", record, "--ink", "red", "--result", "bleeds", ...LIQUID]);
    expect((await advise(record)).advice.verdict).toBe("do-not-immerse");
    expect((await runCli(["advise", record])).status).toBe(0);
    expect((await runCli(["advise", record, "--exit-by-advice"])).status).toBe(5);
  });

  test("a later fast test of the same ink in the same liquid takes that back", async () => {
    await runCli(["blot", record, "--ink", "red", "--result", "fast", ...LIQUID]);
    expect((await advise(record)).advice.verdict).not.toBe("do-not-immerse");
  });

  test("surfactant bath last: rinse first; the bath counts without a photo", async () => {
    const bath = ["bath", record, "--kind", "wash", "--surfactant", "--no-photo", ...BATH];
    expect((await runCli(bath)).status).toBe(0);
    const { advice, baths } = await advise(record);
    expect(baths).toBe(1);
    expect(advice.verdict).toBe("rinse-first");
  });

  test("a bleed seen outranks the rinse, and says that surfactant is left in", async () => {
    expect((await runCli(["step", record, "--bleed", "red"])).status).toBe(0);
    const { advice } = await advise(record);
    expect(advice.verdict).toBe("lift");
    expect(advice.sheetNow).toBe("blot-both-faces");
    expect(JSON.stringify(advice)).toMatch(/surfactant/i);
  });

  test("conditions left out repeat the last bath of that kind, marked", async () => {
    const run = await runCli(["bath", record, "--kind", "wash", "--no-photo", "--json"]);
    const { event } = jsonOf(run) as {
      event: { settings: { minutes: number; surfactant: boolean; repeated: string[] } };
    };
    expect(event.settings).toMatchObject({ minutes: 5, surfactant: true, temperatureC: 38 });
    expect(event.settings.repeated).toContain("minutes");
  });

  test("a correction supersedes, the first writing stays", async () => {
    const events = join(record, "events");
    const id = readdirSync(events).sort().at(-1)?.slice(0, 6) ?? "";
    const before = readFileSync(join(events, `${id}.json`), "utf8");
    const run = await runCli(["amend", record, id, "--set", "minutes=7", "--why", "wrong clock"]);
    expect(run.status).toBe(0);
    expect(readFileSync(join(events, `${id}.json`), "utf8")).toBe(before);
    const wrong = await runCli(["amend", record, id, "--set", "wat=1", "--json"]);
    expect(wrong.status).toBe(2);
    expect(jsonOf(wrong)).toMatchObject({ error: { code: "wrong-use" } });
  });

  test("export lists every event, as JSON and as a table", async () => {
    const { events } = jsonOf(await runCli(["export", record, "--json"])) as {
      events: { id: string; kind: string }[];
    };
    expect(events.map(({ kind }) => kind).slice(0, 4)).toEqual(["opened", "blot", "blot", "bath"]);
    const csv = (await runCli(["export", record, "--csv"])).stdout;
    expect(csv.startsWith("id,at,kind,program,name,value\r\n")).toBe(true);
  });

  test("a damaged event is named and the rest serves", async () => {
    const path = join(record, "events", "000002.json");
    writeFileSync(path, "{");
    const run = await runCli(["export", record, "--json"]);
    expect(run.status).toBe(0);
    expect(jsonOf(run)).toMatchObject({ damaged: [{ file: "000002.json" }] });
  });
});

describe("refusals of the record", () => {
  test("no record, a second record in one folder, an after scan without a before scan", async () => {
    const none = await runCli(["advise", join(folder, "nowhere"), "--json"]);
    expect([none.status, jsonOf(none)]).toMatchObject([3, { error: { code: "record-missing" } }]);
    const record = join(folder, "twice");
    await runCli(["open", record, "--title", "Once"]);
    const twice = await runCli(["open", record, "--title", "Twice", "--json"]);
    expect([twice.status, jsonOf(twice)]).toMatchObject([3, { error: { code: "record-exists" } }]);
    const after = await runCli(["after", record, join(folder, "x.png"), "--json"]);
    expect([after.status, jsonOf(after)]).toMatchObject([2, { error: { code: "wrong-use" } }]);
  });
});
