import { fileURLToPath } from "node:url";
import { afterAll, describe, expect, test } from "vitest";
import { measureBlotterFile } from "../../src/blotter/measureBlotterFile.ts";
import { loadCard } from "../../src/card/loadCard.ts";
import { surveyScan } from "../../src/compare/surveyScan.ts";
import { measureJarFiles } from "../../src/jar/measureJarFiles.ts";
import { readStation } from "../../src/jar/place/readStation.ts";
import { keptBlot, keptJar, keptSurvey } from "../../src/record/keptForms.ts";
import { closeVision } from "../../src/vision/pool.ts";

const sample = (name: string): string =>
  fileURLToPath(new URL(`../../sample-images/${name}`, import.meta.url));

afterAll(closeVision);

const REFUSED = {
  reading: null,
  refused: { code: "spots-not-found", message: "no spot", remedy: "again" },
  warnings: [],
};

/** Every value is what the program itself measures: were its form too narrow, nothing would be answered from the store. */
describe("what is measured fits the form in which it is kept, and not when a figure is missing or null", () => {
  test("a jar", async () => {
    const { readings, warnings } = await measureJarFiles({
      spent: [sample("jar-bath-1.jpg")],
      blank: sample("jar-blank.jpg"),
      geometry: await readStation(sample("station.json")),
    });
    const kept = { reading: readings[0], refused: null, warnings };
    expect(keptJar.safeParse(kept).error).toBeUndefined();
    expect(keptJar.safeParse(REFUSED).error).toBeUndefined();
    for (const absorbancePerCm of [undefined, null, [null, 0, 0]])
      expect(
        keptJar.safeParse({ ...kept, reading: { ...readings[0], absorbancePerCm } }).success,
      ).toBe(false);
  });

  test("a blotter test", async () => {
    const reading = await measureBlotterFile(
      sample("blotter-red.jpg"),
      await loadCard(undefined),
      null,
    );
    expect(keptBlot.safeParse({ reading, refused: null }).error).toBeUndefined();
    expect(keptBlot.safeParse(REFUSED).error).toBeUndefined();
    for (const verdict of [undefined, null, "harmless"])
      expect(keptBlot.safeParse({ reading: { ...reading, verdict }, refused: null }).success).toBe(
        false,
      );
  });

  test("a survey", async () => {
    const { paperLab, inks, warnings } = await surveyScan({
      file: sample("before.png"),
      state: "dry",
      card: await loadCard(undefined),
    });
    expect(inks.length).toBeGreaterThan(0);
    expect(keptSurvey.safeParse({ paperLab, inks, warnings }).error).toBeUndefined();
    const [first, ...others] = inks;
    expect(
      keptSurvey.safeParse({
        paperLab,
        inks: [{ ...first, areaCm2: null }, ...others],
        warnings,
      }).success,
    ).toBe(false);
  });
});
