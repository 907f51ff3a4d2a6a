import { mkdirSync, readdirSync, writeFileSync } from "node:fs";
import { basename, join } from "node:path";
import { fileURLToPath } from "node:url";
import { beforeAll, describe, expect, test } from "vitest";
import { callCli } from "../support/callCli.ts";
import { jsonOf } from "../support/runCli.ts";
import { temporaryFolder } from "../support/temporaryFolder.ts";

const folder = temporaryFolder();
const sample = (name: string): string =>
  fileURLToPath(new URL(`../../sample-images/${name}`, import.meta.url));
const events = (record: string): string[] => readdirSync(join(record, "events"));

const refusalOf = async (words: readonly string[]) => {
  const run = await callCli([...words, "--json"]);
  const { error } = jsonOf(run) as {
    error: { code: string; message: string; remedy: string; input: string | null };
  };
  return { status: run.status, ...error };
};

describe("conditions that no bath can have", () => {
  const record = join(folder, "ranges");
  beforeAll(async () => {
    await callCli(["open", record]);
    await callCli(["bath", record, "--kind", "wash", "--no-photo"]);
  });

  const bath = ["bath", record, "--kind", "wash", "--no-photo"];
  const blot = ["blot", record, "--ink", "red", "--result", "fast"];
  const amend = ["amend", record, "2", "--set"];
  const MORE = "expected more than the 16 mL that the wet sheet itself holds, received";
  const recipe = ["recipe", "--limewater-share", "5"];
  test.each<[string, string[], string]>([
    [
      "litres for millilitres in a recipe",
      [...recipe, "--temperature-c", "25", "--volume-ml", "0.5"],
      `For --volume-ml: ${MORE} 0.5: did you mean 500 mL (0.5 litres)?`,
    ],
    [
      "degrees Fahrenheit in a recipe",
      [...recipe, "--volume-ml", "500", "--temperature-c", "101"],
      "For --temperature-c: expected a temperature from -10 to 100 C, received 101: did you mean 38.3 C (101 F)?",
    ],
    [
      "litres for millilitres",
      [...bath, "--volume-ml", "0.5"],
      `For --volume-ml: ${MORE} 0.5: did you mean 500 mL (0.5 litres)?`,
    ],
    [
      "less than the wet sheet's own liquid",
      [...bath, "--volume-ml", "12"],
      `For --volume-ml: ${MORE} 12: did you mean 12000 mL (12 litres)?`,
    ],
    [
      "a point left out of the pH",
      [...bath, "--ph-in", "85"],
      "For --ph-in: expected a pH from 0 to 14, received 85: did you mean 8.5?",
    ],
    [
      "and of the one after",
      [...bath, "--ph-out", "82"],
      "For --ph-out: expected a pH from 0 to 14, received 82: did you mean 8.2?",
    ],
    [
      "a nought too many",
      [...bath, "--temperature-c", "380"],
      "For --temperature-c: expected a temperature from -10 to 100 C, received 380: did you mean 38 C?",
    ],
    [
      "a decimal comma",
      [...bath, "--ph-in", "8,5"],
      "Expected a number with a decimal point: did you mean 8.5?",
    ],
    [
      "the liquid of a test",
      [...blot, "--ph", "85"],
      "For --ph: expected a pH from 0 to 14, received 85: did you mean 8.5?",
    ],
    [
      "its warmth",
      [...blot, "--temperature-c", "104"],
      "For --temperature-c: expected a temperature from -10 to 100 C, received 104: did you mean 40 C (104 F)?",
    ],
    [
      "a correction: volume",
      [...amend, "volumeMl=0.5"],
      `For --set volumeMl: ${MORE} 0.5: did you mean 500 mL (0.5 litres)?`,
    ],
    [
      "a correction: pH",
      [...amend, "phIn=85"],
      "For --set phIn: expected a pH from 0 to 14, received 85: did you mean 8.5?",
    ],
    [
      "a correction: temperature",
      [...amend, "temperatureC=380"],
      "For --set temperatureC: expected a temperature from -10 to 100 C, received 380: did you mean 38 C?",
    ],
  ])("%s: refused with what was probably meant, nothing recorded", async (_, words, message) => {
    const before = events(record);
    const refused = await refusalOf(words);
    expect([refused.status, refused.code]).toEqual([2, "wrong-use"]);
    expect(refused.message).toContain(message);
    expect(events(record)).toEqual(before);
  });

  test("a recipe's volume is held to the same", async () => {
    const recipe = join(folder, "recipe.json");
    writeFileSync(
      recipe,
      JSON.stringify({
        schema: "lastrinse.recipe",
        version: 1,
        volumeMl: 0.5,
        temperatureC: 38,
        limewaterMl: 0.01,
        ph: 8.5,
        surfactantMgPerL: null,
      }),
    );
    expect(await refusalOf([...bath, "--recipe", recipe])).toMatchObject({
      status: 2,
      message: expect.stringContaining("500 mL (0.5 litres)") as string,
    });
  });

  const EVIDENCE = {
    schema: "lastrinse.evidence",
    version: 1,
    bathVolumeMl: 500,
    paper: { lab: [78, 3, 19] },
    inks: [{ id: "red", lab: [50, 50, 30], areaCm2: 90, blot: "fast" }],
    baths: [{ kind: "wash", surfactant: true }],
  };
  test.each<[string, object, string]>([
    [
      "litres for millilitres",
      { bathVolumeMl: 0.5 },
      `bathVolumeMl: ${MORE} 0.5: did you mean 500 mL (0.5 litres)?`,
    ],
    [
      "less than this sheet's own liquid",
      { wetSheetMl: 600 },
      "bathVolumeMl: expected more than the 600 mL that the wet sheet itself holds, received 500",
    ],
    [
      "the volume of one bath",
      { baths: [{ kind: "wash", surfactant: true, volumeMl: 0.4 }] },
      `baths[0].volumeMl: ${MORE} 0.4: did you mean 400 mL (0.4 litres)?`,
    ],
    [
      "the pH",
      { baths: [{ kind: "wash", surfactant: true, ph: 85 }] },
      "baths[0].ph: expected a pH from 0 to 14, received 85: did you mean 8.5?",
    ],
    [
      "the warmth",
      { baths: [{ kind: "wash", surfactant: true, temperatureC: 380 }] },
      "baths[0].temperatureC: expected a temperature from -10 to 100 C, received 380: did you mean 38 C?",
    ],
  ])(
    "jar --evidence and bath --evidence, %s: refused in the same words",
    async (name, change, message) => {
      const file = join(folder, `${name}.json`);
      writeFileSync(file, JSON.stringify({ ...EVIDENCE, ...change }));
      const before = events(record);
      for (const words of [
        [
          "jar",
          sample("jar-bath-1.jpg"),
          "--blank",
          sample("jar-blank.jpg"),
          "--station",
          sample("station.json"),
          "--evidence",
          file,
        ],
        [...bath, "--evidence", file],
      ]) {
        const refused = await refusalOf(words);
        expect([refused.status, refused.code, refused.input]).toEqual([3, "bad-json", file]);
        expect(refused.message).toContain(message);
      }
      expect(events(record)).toEqual(before);
    },
  );
});

describe("names of inks after the before scan", () => {
  const record = join(folder, "names");
  const blot = (...words: string[]) => ["blot", record, "--result", "fast", ...words];
  beforeAll(async () => {
    await callCli(["open", record]);
    // Before the scan any name serves.
    expect((await callCli(blot("--ink", "crimson"))).status).toBe(0);
    expect((await callCli(["before", record, sample("before.png"), "--state", "dry"])).status).toBe(
      0,
    );
  });

  test("one that is none of them is refused with the list and the nearest", async () => {
    const before = events(record);
    expect(await refusalOf(blot("--ink", "yelow"))).toEqual({
      status: 2,
      code: "wrong-use",
      message: expect.stringMatching(
        /^Expected one of the inks of the before scan \((?=.*red)(?=.*blue)(?=.*yellow)(?=.*black).*\) for --ink, received "yelow": did you mean yellow\?$/,
      ) as string,
      remedy:
        "Give the command again with yellow; for an ink on a face that was not scanned add --unlisted. Nothing was recorded.",
      input: "--ink",
    });
    const none = await refusalOf(blot("--ink", "magenta"));
    expect(none.message).toMatch(/received "magenta"\.$/);
    expect(events(record)).toEqual(before);
  });

  test("--unlisted takes it; the right name needs nothing", async () => {
    expect((await callCli(blot("--ink", "magenta", "--unlisted"))).status).toBe(0);
    expect((await callCli(blot("--ink", "red"))).status).toBe(0);
  });

  test("a correction to such a name is refused as well", async () => {
    expect(await refusalOf(["amend", record, "2", "--set", "ink=rde"])).toMatchObject({
      status: 2,
      message: expect.stringMatching(
        /for --set ink, received "rde": did you mean red\?$/,
      ) as string,
    });
    expect(
      (await callCli(["amend", record, "2", "--set", "ink=crimson", "--unlisted"])).status,
    ).toBe(0);
  });

  test("a bleed counts whatever it is called: it lifts, and says that the name is unknown", async () => {
    await callCli(["bath", record, "--kind", "rinse", "--no-surfactant", "--no-photo"]);
    const run = await callCli(["step", record, "--bleed", "yelow"]);
    const id = events(record).sort().at(-1)?.slice(0, 6) ?? "";
    expect(run.status).toBe(0);
    expect(run.stdout).toContain('"yelow" is none of the inks of the before scan');
    expect(run.stdout).toContain("the sheet is lifted all the same");
    expect(run.stdout).toContain(`lastrinse amend ${record} ${id} --set bleed=yellow`);
    expect(run.stdout).toContain("Out on the support");
    const { advice } = jsonOf(await callCli(["advise", record, "--json"])) as {
      advice: { verdict: string };
    };
    expect(advice.verdict).toBe("lift");
    expect((await callCli(["step", record, "--bleed", "red"])).stdout).not.toContain(
      "none of the inks",
    );
  });
});

describe("open", () => {
  const titleOf = async (record: string) => {
    const { events: all } = jsonOf(await callCli(["export", record, "--json"])) as {
      events: { settings: { title: string } }[];
    };
    return all[0].settings.title;
  };

  test("needs no title: the folder's name serves", async () => {
    const record = join(folder, "Brine Bell, cover");
    expect((await callCli(["open", `${record}/`])).status).toBe(0);
    expect(await titleOf(record)).toBe(basename(record));
  });

  test("on an existing record says record-exists, with or without a title, and changes nothing", async () => {
    const record = join(folder, "once");
    await callCli(["open", record]);
    for (const more of [[], ["--title", "Again"]])
      expect(await refusalOf(["open", record, ...more])).toMatchObject({
        status: 3,
        code: "record-exists",
        message: `Expected a new folder for the record, but ${record} already holds one.`,
        remedy: expect.stringContaining(`lastrinse advise ${record}`) as string,
      });
    expect(events(record)).toEqual(["000001.json"]);
  });

  test("what a killed opening left is no record; other people's files are not written among", async () => {
    const killed = join(folder, "killed");
    mkdirSync(join(killed, "events"), { recursive: true });
    writeFileSync(join(killed, "events", ".1234.part"), "");
    expect((await callCli(["open", killed])).status).toBe(0);
    const full = join(folder, "full");
    mkdirSync(full);
    writeFileSync(join(full, "mine.txt"), "");
    expect(await refusalOf(["open", full])).toMatchObject({ status: 2, code: "output-exists" });
  });
});

describe("ids", () => {
  test("may be written without leading zeros; a wrong one is refused with the list", async () => {
    const record = join(folder, "ids");
    await callCli(["open", record]);
    await callCli(["step", record, "--what", "x"]);
    expect((await callCli(["amend", record, "2", "--set", "what=y"])).stdout).toContain(
      "It supersedes event 000002",
    );
    expect((await callCli(["amend", record, "000002", "--set", "what=z"])).status).toBe(0);
    expect(await refusalOf(["amend", record, "9", "--withdraw"])).toMatchObject({
      status: 2,
      remedy: "Use one of: 000001 (opened), 000002 (step).",
    });
  });
});
