import { copyFileSync, rmSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";
import { callCli } from "../support/callCli.ts";
import { jsonOf } from "../support/runCli.ts";
import { temporaryFolder } from "../support/temporaryFolder.ts";

const folder = temporaryFolder();
const sample = (name: string): string =>
  fileURLToPath(new URL(`../../sample-images/${name}`, import.meta.url));
const LIQUID = ["--surfactant", "--ph", "8.5", "--temperature-c", "38", "--minutes", "5"];

const opened = async (name: string): Promise<string> => {
  const record = join(folder, name);
  await callCli(["open", record]);
  return record;
};
const blot = (record: string, ink: string, ...more: string[]) =>
  callCli(["blot", record, "--ink", ink, ...LIQUID, ...more]);
/** Without a scan of the cover nothing is permitted; what is said of the ink is all that can differ. */
const WAS_FAST = "Red was fast, but its colour on the cover is not known";
const advised = async (record: string) => {
  const { advice } = jsonOf(await callCli(["advise", record, "--json"])) as {
    advice: { verdict: string; reasons: { code: string; text: string }[] };
  };
  return { verdict: advice.verdict, text: advice.reasons.map(({ text }) => text).join(" ") };
};

describe("taking back bad news makes no good news", () => {
  test("a photo that shows more than the word corrects it; without the photo nothing gets better", async () => {
    const record = await opened("photo-over-word");
    const photo = join(folder, "red-spot.jpg");
    copyFileSync(sample("blotter-red.jpg"), photo);
    const run = await blot(record, "red", "--photo", photo, "--result", "fast");
    expect(run.stdout).toContain(
      "red: doubtful (staining grade 4, 7.46 dE00 +- 0.11 against the liquid alone).",
    );
    expect(run.stdout).toContain(
      "You said fast; the photo shows more, and that counts (correction 000003).",
    );
    const { verdict } = await advised(record);
    expect(verdict).not.toBe("continue");
    rmSync(photo);
    expect((await advised(record)).verdict).not.toBe("continue");
  });

  test("a word that says as much as its photo, or more, is not corrected", async () => {
    const record = await opened("word-over-photo");
    const photo = sample("blotter-yellow.jpg");
    for (const word of ["fast", "bleeds"]) {
      const run = await blot(record, "yellow", "--photo", photo, "--result", word);
      expect(run.stdout).not.toContain("correction");
    }
  });

  test("a bleeding test withdrawn leaves the ink untested until a newer one is fast, though an older one was", async () => {
    const record = await opened("withdrawn");
    await blot(record, "red", "--result", "fast");
    expect((await advised(record)).text).toContain(WAS_FAST);
    await blot(record, "red", "--result", "bleeds");
    expect((await advised(record)).verdict).toBe("do-not-immerse");
    const run = await callCli(["amend", record, "3", "--withdraw"]);
    expect(run.stdout).toContain("It had not been fast: test red anew before it goes into water.");
    const { verdict, text } = await advised(record);
    expect(verdict).toBe("not-decidable");
    expect(text).toContain(
      "Red counts as untested: its last blotter test was withdrawn and had not been fast.",
    );
    await blot(record, "red", "--result", "fast");
    expect((await advised(record)).text).toContain(WAS_FAST);
  });

  test("a fast test recorded twice and withdrawn once permits what it did", async () => {
    const record = await opened("twice");
    await blot(record, "red", "--result", "fast");
    await blot(record, "red", "--result", "fast");
    const run = await callCli(["amend", record, "3", "--withdraw"]);
    expect(run.stdout).not.toContain("test red anew");
    expect((await advised(record)).text).toContain(WAS_FAST);
  });

  test("a withdrawn test of a wrong name is put right by its name", async () => {
    const record = await opened("wrong-name");
    await blot(record, "rde", "--result", "bleeds");
    await blot(record, "red", "--result", "fast");
    const run = await callCli(["amend", record, "2", "--withdraw"]);
    expect(run.stdout).toContain(`lastrinse amend ${record} 000002 --set ink=INK`);
    await callCli(["amend", record, "2", "--set", "ink=red"]);
    await blot(record, "red", "--result", "fast");
    const { text } = await advised(record);
    expect(text).toContain(WAS_FAST);
    expect(text).not.toMatch(/rde/i);
  });

  test("the result of a test is corrected or the test withdrawn, never emptied", async () => {
    const record = await opened("emptied");
    await blot(record, "red", "--result", "bleeds");
    const run = await callCli(["amend", record, "2", "--set", "result=null", "--json"]);
    expect(run.status).toBe(2);
    expect(jsonOf(run)).toMatchObject({
      error: { code: "wrong-use", remedy: expect.stringContaining("withdraw it") as string },
    });
  });
});
