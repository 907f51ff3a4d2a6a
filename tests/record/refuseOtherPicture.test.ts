import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";
import { encodePng } from "../../src/picture/encodePng.ts";
import { refuseOtherPicture } from "../../src/record/refuseOtherPicture.ts";
import type { KeptSurvey } from "../../src/record/surveyOf.ts";
import { temporaryFolder } from "../support/temporaryFolder.ts";

const folder = temporaryFolder();
const sample = (name: string): string =>
  fileURLToPath(new URL(`../../sample-images/${name}`, import.meta.url));
const RED = {
  id: "red",
  kind: "ink",
  lab: [50, 50, 30],
  areaCm2: 90,
} as KeptSurvey["inks"][number];
const survey = (more: Partial<KeptSurvey> = {}): KeptSurvey => ({
  paperLab: [78, 3, 19],
  inks: [RED],
  warnings: [],
  ...more,
});
const NO_DPI = { warnings: [{ code: "no-dpi" as const, message: "" }] };

describe("what was taken for a scan of the cover", () => {
  test("a front without ink is refused, an inside or back may be bare", async () => {
    const bare = survey({ inks: [] });
    await expect(refuseOtherPicture("x.png", "front", bare)).rejects.toMatchObject({
      code: "frames-differ",
      message: expect.stringContaining("no ink was found") as string,
    });
    for (const side of ["back", "inside-front", "inside-back"] as const)
      await expect(refuseOtherPicture("x.png", side, bare)).resolves.toBeUndefined();
  });

  test("a jar before its backing is refused on any side", async () => {
    for (const side of ["front", "back"] as const)
      await expect(
        refuseOtherPicture(sample("jar-blank.jpg"), side, survey(NO_DPI)),
      ).rejects.toMatchObject({
        code: "frames-differ",
        message: expect.stringContaining("the jar before its printed backing") as string,
      });
  });

  test("a picture without a resolution and without a backing is none of a jar", async () => {
    const file = join(folder, "plain.png");
    const data = new Uint8Array(3 * 200 * 300).fill(180);
    writeFileSync(file, await encodePng({ width: 200, height: 300, channels: 3, data }));
    await expect(refuseOtherPicture(file, "front", survey(NO_DPI))).resolves.toBeUndefined();
  });

  test("a scan that states its resolution is not searched: it need not even be there", async () => {
    await expect(refuseOtherPicture("none.png", "front", survey())).resolves.toBeUndefined();
    await expect(refuseOtherPicture("none.png", "front", survey(NO_DPI))).rejects.toMatchObject({
      code: "unreadable",
    });
  });
});
