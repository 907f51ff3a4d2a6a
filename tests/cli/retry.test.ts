import { copyFileSync, readFileSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { beforeAll, describe, expect, test } from "vitest";
import { callCli } from "../support/callCli.ts";
import { jsonOf } from "../support/runCli.ts";
import { temporaryFolder } from "../support/temporaryFolder.ts";

const folder = temporaryFolder();
const sample = (name: string): string =>
  fileURLToPath(new URL(`../../sample-images/${name}`, import.meta.url));
const BLANK = sample("jar-blank.jpg");
const STATION = ["--station", sample("station.json")];

interface Advised {
  readonly baths: number;
  readonly advice: {
    readonly verdict: string;
    readonly reasons: readonly { readonly code: string; readonly text: string }[];
  };
  readonly warnings: readonly { readonly code: string; readonly message: string }[];
}
const advise = async (record: string) =>
  jsonOf(await callCli(["advise", record, "--json"])) as Advised;

interface Answered {
  readonly status: number | null;
  readonly error: {
    readonly code: string;
    readonly message: string;
    readonly remedy: string;
    readonly input: string | null;
  };
}
const refusalOf = async (words: readonly string[]): Promise<Answered> => {
  const run = await callCli([...words, "--json"]);
  return { status: run.status, error: (jsonOf(run) as Answered).error };
};

/** The words of a line to be pasted, as a shell would split it; no name here holds a quote. */
const wordsOf = (line: string): string[] =>
  [...line.matchAll(/'([^']*)'|(\S+)/g)].map(([, quoted, plain]) => quoted ?? plain);

describe("a retry is not a second bath", () => {
  const record = join(folder, "my cover");
  const spent = join(folder, "spent one.jpg");
  const wash = [
    "bath",
    record,
    "--kind",
    "wash",
    "--surfactant",
    "--minutes",
    "5",
    "--volume-ml",
    "500",
  ];
  let pasted: string[] = [];

  beforeAll(async () => {
    await callCli(["open", record]);
    await callCli(["blot", record, "--ink", "red", "--result", "fast", "--surfactant"]);
    writeFileSync(spent, "no picture");
  });

  test("the refusal of a photo ends with the line that gives the bath other ones, and says how to withdraw", async () => {
    const { status, error } = await refusalOf([
      ...wash,
      "--spent",
      spent,
      "--blank",
      BLANK,
      ...STATION,
    ]);
    expect([status, error.code]).toEqual([3, "unsupported-format"]);
    expect(error.remedy).toContain("recorded as 000003 and counts: don't record it again");
    expect(error.remedy).toContain(`(lastrinse amend '${record}' 000003 --withdraw)`);
    const line = `lastrinse bath '${record}' --photo-for 000003 --spent '${spent}' --blank ${BLANK}`;
    expect(error.remedy.endsWith(line)).toBe(true);
    pasted = wordsOf(line).slice(1);
  });

  test("that line, pasted with a better picture of that name, gives the bath its figure: one bath, no file under events changed", async () => {
    const events = join(record, "events");
    const before = readdirSync(events).map(
      (name) => [name, readFileSync(join(events, name), "utf8")] as const,
    );
    copyFileSync(sample("jar-bath-1.jpg"), spent);
    const run = await callCli([...pasted, "--json"]);
    expect(run.status).toBe(0);
    const { event, reading } = jsonOf(run) as {
      event: { kind: string; settings: { event: string; changes: object } };
      reading: { absorbancePerCm: number[] } | null;
    };
    expect(event).toMatchObject({
      kind: "amended",
      settings: { event: "000003", withdrawn: false, changes: {} },
    });
    expect(reading?.absorbancePerCm.every(Number.isFinite)).toBe(true);
    const { baths, advice, warnings } = await advise(record);
    expect([baths, advice.verdict]).toEqual([1, "rinse-first"]);
    // The first file of that name is gone; it bears no figure any more.
    expect(warnings.filter(({ code }) => /^input-|^not-measured/.test(code))).toEqual([]);
    for (const [name, text] of before) expect(readFileSync(join(events, name), "utf8")).toBe(text);
    const page = join(folder, "given-later");
    expect((await callCli(["report", record, "--out", page])).status).toBe(0);
    expect(readFileSync(join(page, "report.html"), "utf8")).toContain(
      'Event 000003 corrected: <bdi class="written">its pictures (see files)</bdi>',
    );
  });

  test("a photo that was given to another bath too is told of", async () => {
    const run = await callCli([...wash, "--spent", spent, "--blank", BLANK]);
    expect(run.stdout).toContain(
      "The same photo belongs to bath 000003: two baths now count, the second as not photographed.",
    );
    expect(run.stdout).toContain(`lastrinse amend '${record}' 000005 --withdraw`);
    await callCli(["amend", record, "5", "--withdraw"]);
    expect((await advise(record)).baths).toBe(1);
  });

  test("photos given in each other's place: the line to paste turns them round", async () => {
    const mixed = join(folder, "mixed");
    await callCli(["open", mixed]);
    const dark = sample("jar-bath-3.jpg");
    const { status, error } = await refusalOf([
      ...["bath", mixed, "--kind", "wash", "--surfactant", "--minutes", "5", "--volume-ml", "500"],
      ...["--spent", BLANK, "--blank", dark, ...STATION],
    ]);
    expect([status, error.code]).toEqual([4, "blank-darker"]);
    expect(error.remedy).toContain(`--photo-for 000002 --spent ${dark} --blank ${BLANK}`);
  });

  test("a record opened without a jar says what to name before the first photo; one with a jar doesn't", async () => {
    const hint = "No jar is named yet: before the first jar photo say which it is";
    expect((await callCli(["open", join(folder, "no jar")])).stdout).toContain(hint);
    const jar = ["--jar", "flat", "--inside-mm", "50", "--passes", "1"];
    expect((await callCli(["open", join(folder, "with jar"), ...jar])).stdout).not.toContain(hint);
  });

  test.each<[string, string[], string, string]>([
    [
      "no such bath",
      ["9", "--spent", "a.jpg", "--blank", "b.jpg"],
      "Expected the event of a bath of",
      "Use one of: 000003 (wash).",
    ],
    [
      "an event that is no bath",
      ["2", "--spent", "a.jpg", "--blank", "b.jpg"],
      'received "2"',
      "Use one of: 000003 (wash).",
    ],
    [
      "no blank",
      ["3", "--spent", "a.jpg"],
      "Expected --spent and --blank with --photo-for.",
      "--photo-for 000003 --spent a.jpg --blank BLANK",
    ],
    [
      "conditions as well",
      ["3", "--spent", "a.jpg", "--blank", "b.jpg", "--minutes", "7"],
      "conditions of the bath too (minutes)",
      "amend",
    ],
  ])("--photo-for with %s is refused", async (_, words, message, remedy) => {
    const { status, error } = await refusalOf(["bath", record, "--photo-for", ...words]);
    expect([status, error.code]).toEqual([2, "wrong-use"]);
    expect(error.message).toContain(message);
    expect(error.remedy).toContain(remedy);
  });
});

describe("what is left out at the tray", () => {
  const record = join(folder, "left-out");
  const bath = (...words: string[]) => ["bath", record, "--no-photo", ...words];
  const settingsOf = async (words: string[]) =>
    (
      jsonOf(await callCli([...words, "--json"])) as {
        event: { settings: Record<string, unknown> };
      }
    ).event.settings;

  beforeAll(async () => {
    await callCli(["open", record]);
    await callCli(["blot", record, "--ink", "red", "--result", "fast"]);
  });

  test("a first wash with nothing said: unknown, counts as holding surfactant, and the line that adds it is printed", async () => {
    const run = await callCli(bath("--kind", "wash"));
    expect(run.stdout).not.toContain("Repeated");
    expect(run.stdout).toContain(
      "Not stated: surfactant (counts as held), volume (no fade without it).",
    );
    expect(run.stdout).toContain(
      `lastrinse amend ${record} 000003 --set surfactant=TRUE-OR-FALSE --set volumeMl=ML`,
    );
    const { advice } = await advise(record);
    expect(advice.verdict).toBe("rinse-first");
    expect((await callCli(["report", record])).status).toBe(0);
  });

  test("the kind is asked for after it, and after surfactant, never repeated; nothing is recorded", async () => {
    for (const [surfactant, words] of [
      [null, "bath 000003 may have held surfactant"],
      [true, "bath 000003 held surfactant"],
    ] as const) {
      await callCli(["amend", record, "3", "--set", `surfactant=${String(surfactant)}`]);
      const before = readdirSync(join(record, "events"));
      const { status, error } = await refusalOf(bath());
      expect([status, error.code, error.input]).toEqual([2, "wrong-use", "--kind"]);
      expect(error.message).toContain(words);
      expect(readdirSync(join(record, "events"))).toEqual(before);
    }
  });

  test("a plain rinse is asked for once, not for ever", async () => {
    await callCli(bath("--kind", "rinse", "--no-surfactant", "--minutes", "5"));
    expect((await advise(record)).advice.verdict).not.toBe("rinse-first");
  });

  test("only what was repeated is called repeated", async () => {
    const run = await callCli(bath());
    expect(run.stdout).toContain(
      "Repeated from the last rinse, not confirmed: kind, surfactant, time.",
    );
    expect(
      await settingsOf(bath("--kind", "rinse", "--no-surfactant", "--minutes", "4")),
    ).toMatchObject({
      minutes: 4,
      volumeMl: null,
      repeated: [],
    });
  });

  test("a bath without a volume: advise and report answer, no fade, no go-ahead, the line that adds it", async () => {
    const { advice } = await advise(record);
    expect(advice.verdict).not.toBe("continue");
    expect(JSON.stringify(advice)).not.toContain("NaN");
    const report = await callCli(["report", record]);
    expect(report.status).toBe(0);
    expect(readFileSync(join(record, "report", "report.html"), "utf8")).not.toContain("NaN");
  });
});

describe("a record with a hole", () => {
  test("advise gives no go-ahead and report serves the rest; the kind of the next bath is asked for", async () => {
    const record = join(folder, "hole");
    await callCli(["open", record]);
    const liquid = ["--surfactant", "--ph", "8.5", "--temperature-c", "38", "--minutes", "5"];
    await callCli(["blot", record, "--ink", "red", "--result", "fast", ...liquid]);
    await callCli(["bath", record, "--kind", "rinse", "--no-surfactant", "--no-photo"]);
    await callCli(["step", record, "--what", "x"]);
    rmSync(join(record, "events", "000003.json"));
    const { advice, warnings } = await advise(record);
    expect(advice.verdict).toBe("not-decidable");
    expect(advice.reasons.map(({ code }) => code)).toContain("event-damaged");
    expect(warnings.map(({ code }) => code)).toContain("event-damaged");
    expect((await callCli(["report", record])).status).toBe(0);
    const { status, error } = await refusalOf(["bath", record, "--no-photo"]);
    expect([status, error.input]).toEqual([2, "--kind"]);
    expect(error.message).toContain("000003.json of the record can't be read");
    await callCli(["step", record, "--bleed", "red"]);
    expect((await advise(record)).advice.verdict).not.toBe("not-decidable");
  });
});

describe("a slip with a photo or a volume", () => {
  const record = join(folder, "slips");
  const blot = (ink: string, ...more: string[]) => [
    ...["blot", record, "--ink", ink, "--photo", sample("blotter-black.jpg"), ...more],
    ...["--surfactant", "--ph", "8.5", "--temperature-c", "38", "--minutes", "5"],
  ];

  beforeAll(async () => {
    await callCli(["open", record]);
  });

  test("the photo of one ink's spot is not the test of another ink; boxes in it are other spots", async () => {
    expect((await callCli(blot("black"))).status).toBe(0);
    const { status, error } = await refusalOf(blot("red"));
    expect([status, error.code]).toEqual([4, "same-picture"]);
    expect(error.message).toContain("is the photo of the blotter test of black (event 000002)");
    expect(readdirSync(join(record, "events"))).toHaveLength(2);
    // The same ink again is a repeat, and a box is asked of the photo, not of the record.
    expect((await callCli(blot("black"))).status).toBe(0);
    const boxed = await callCli(
      blot("red", "--spot-box", "10,10,40,40", "--control-box", "90,10,40,40"),
    );
    expect(boxed.stderr).not.toContain("blotter test of black");
  });

  test("a tenth of the last volume is asked about, a half is not", async () => {
    const bath = (volume: string) =>
      callCli(["bath", record, "--no-photo", "--kind", "wash", "--volume-ml", volume]);
    await bath("500");
    expect((await bath("250")).stdout).not.toContain("the one before it had");
    expect((await bath("25")).stdout).toMatch(
      /This bath has 25 mL, the one before it had 250 mL.*--set volumeMl=ML/,
    );
  });
});
