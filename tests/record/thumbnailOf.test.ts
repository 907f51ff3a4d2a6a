import { appendFileSync } from "node:fs";
import { join } from "node:path";
import sharp from "sharp";
import { expect, test } from "vitest";
import { describeInput } from "../../src/record/inputs.ts";
import { thumbnailOf } from "../../src/record/thumbnailOf.ts";
import { input } from "../support/memoryRecord.ts";
import { temporaryFolder } from "../support/temporaryFolder.ts";

const folder = temporaryFolder();

async function drawn(name: string, width: number, height: number, orientation?: number) {
  const file = join(folder, name);
  const picture = sharp({
    create: { width, height, channels: 4, background: { r: 255, g: 0, b: 0, alpha: 0 } },
  });
  await (orientation === undefined ? picture : picture.withMetadata({ orientation })).toFile(file);
  return describeInput(folder, "spent", file);
}

test("fits into 200 x 400 and is never enlarged", async () => {
  const sizeOf = async (name: string, width: number, height: number) => {
    const made = await thumbnailOf(folder, await drawn(name, width, height));
    const { width: w, height: h } = await sharp(made!).metadata();
    return [w, h];
  };
  expect(await sizeOf("wide.png", 1000, 500)).toEqual([200, 100]);
  expect(await sizeOf("tall.png", 300, 1200)).toEqual([100, 400]);
  expect(await sizeOf("small.png", 50, 20)).toEqual([50, 20]);
});

test("stands upright whatever the camera's tag says", async () => {
  const made = await thumbnailOf(folder, await drawn("turned.jpg", 400, 200, 6));
  const { width, height, orientation } = await sharp(made!).metadata();
  expect([width, height]).toEqual([200, 400]);
  expect(orientation ?? 1).toBe(1);
});

test("shows white where the picture is clear", async () => {
  const made = await thumbnailOf(folder, await drawn("clear.png", 20, 20));
  const { data } = await sharp(made!).raw().toBuffer({ resolveWithObject: true });
  expect(Math.min(...data)).toBeGreaterThan(250);
});

test("is null where the file is gone, changed or no picture", async () => {
  expect(await thumbnailOf(folder, input("spent", "gone.png"))).toBeNull();
  const recorded = await drawn("changed.png", 20, 20);
  appendFileSync(join(folder, "changed.png"), "x");
  expect(await thumbnailOf(folder, recorded)).toBeNull();
  const text = join(folder, "note.txt");
  appendFileSync(text, "no picture");
  expect(await thumbnailOf(folder, await describeInput(folder, "spent", text))).toBeNull();
});
