import { join } from "node:path";
import { fileURLToPath } from "node:url";
import sharp from "sharp";
import { beforeAll, expect, test } from "vitest";
import { temporaryFolder } from "../support/temporaryFolder.ts";
import { type Answer, ask } from "./answer.ts";

const folder = temporaryFolder();

/** The default, then decimal commas, then Arabic digits; time zones of half hours on both sides. */
const PLACES: readonly Readonly<Record<string, string>>[] = [
  { LANG: "C", LC_ALL: "C", TZ: "UTC" },
  { LANG: "de_DE.UTF-8", LC_ALL: "de_DE.UTF-8", TZ: "Asia/Kolkata" },
  { LANG: "ar_EG.UTF-8", LC_ALL: "ar_EG.UTF-8", TZ: "America/St_Johns" },
];

function everywhere(words: readonly string[]): Promise<Answer[]> {
  return Promise.all(PLACES.map((env) => ask(words, { env })));
}

let after: string;
let before: string;

beforeAll(async () => {
  /** Half of the pixels of the sample scans serve as well and take half the time. */
  const half = async (name: string): Promise<string> => {
    const path = fileURLToPath(new URL(`../../sample-images/${name}`, import.meta.url));
    const { width = 0, density = 0 } = await sharp(path).metadata();
    await sharp(path).resize({ width: Math.round(width / 2) }).withDensity(density / 2).png().toFile(join(folder, name)); // prettier-ignore
    return join(folder, name);
  };
  before = await half("before.png");
  after = await half("after.png");
});

test("compare: the same bytes in every language and time zone; scans the wrong way round are warned of", async () => {
  // The wrong way round on purpose: one comparison shows both.
  const dry = ["--before-state", "dry", "--after-state", "dry"];
  const answers = await everywhere(["compare", after, before, ...dry, "--json"]);
  expect(new Set(answers.map(({ stdout }) => stdout)).size).toBe(1);
  const { status, json } = answers[0];
  expect(status).toBe(0);
  expect((json.warnings as { code: string }[]).map(({ code }) => code)).toContain("order-swapped");
});

test("export --csv and advise: the same bytes in every language and time zone", async () => {
  const record = join(folder, "record");
  await ask(["open", record, "--title", "Ürümqi, 1,5 × ٣"]);
  const conditions = ["--minutes", "7.5", "--temperature-c", "38.25", "--volume-ml", "1500"];
  await ask(["bath", record, "--kind", "wash", "--surfactant", "--no-photo", ...conditions]);
  for (const words of [
    ["export", record, "--csv"],
    ["advise", record, "--json"],
  ]) {
    const answers = await everywhere(words);
    expect(new Set(answers.map(({ stdout }) => stdout)).size).toBe(1);
  }
  const { stdout } = await ask(["export", record, "--csv"], { env: PLACES[2] });
  expect(stdout).toContain("temperatureC,38.25\r\n");
});
