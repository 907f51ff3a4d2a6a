import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { turbidityPhotos } from "../../src/record/turbidityPhotos.ts";
import { temporaryFolder } from "../support/temporaryFolder.ts";

const folder = temporaryFolder();
const at = (name: string): string => join(folder, name);

function series(name: string, points: unknown): string {
  const content = { schema: "lastrinse.turbidity-series", version: 1, points };
  writeFileSync(at(name), JSON.stringify(content));
  return at(name);
}

test("names each photo of the series once, its own blank among them", async () => {
  const file = series("series.json", [
    { file: "clear.png", fnu: 0 },
    { file: "jar-20.png", fnu: 20 },
    { file: "jar-20.png", fnu: 20 },
    { file: "jar-40.png", fnu: 40 },
  ]);
  const photos = await turbidityPhotos(file);
  expect([...photos].sort()).toEqual([at("clear.png"), at("jar-20.png"), at("jar-40.png")]);
});

test("needs no blank of its own", async () => {
  const photos = [5, 10, 20, 40].map((fnu) => ({ file: `jar-${String(fnu)}.png`, fnu }));
  const found = await turbidityPhotos(series("no-blank.json", photos));
  expect([...found].sort()).toEqual(photos.map(({ file }) => at(file)).sort());
});

test("refuses a file that is no series", async () => {
  writeFileSync(at("broken.json"), "{");
  await expect(turbidityPhotos(at("broken.json"))).rejects.toMatchObject({ code: "bad-json" });
  await expect(turbidityPhotos(at("gone.json"))).rejects.toMatchObject({ code: "unreadable" });
});
