import { createHash } from "node:crypto";
import { readFile, readdir, stat } from "node:fs/promises";
import sharp from "sharp";
import { expect, test } from "vitest";
import { framePixels } from "../../sample-images/scene/frame.ts";
import { pairScenes } from "../../sample-images/scene/pairScenes.ts";
import { SAMPLE_PAIR } from "../../sample-images/scene/samplePair.ts";
import { sampleTruth } from "../../sample-images/scene/sampleTruth.ts";

const samples = new URL("../../sample-images/", import.meta.url);

test("truth.json tells of the files beside it and of the scene in the code", async () => {
  const stored = JSON.parse(await readFile(new URL("truth.json", samples), "utf8")) as Record<
    string,
    unknown
  > & { files: Record<string, string> };
  for (const [name, sha256] of Object.entries(stored.files)) {
    const bytes = await readFile(new URL(name, samples));
    expect(createHash("sha256").update(bytes).digest("hex"), name).toBe(sha256);
  }
  const scenes = pairScenes(SAMPLE_PAIR);
  const { files, ...rest } = stored;
  expect(Object.keys(files)).toEqual(["before.png", "after.png"]);
  expect(rest).toEqual(sampleTruth(SAMPLE_PAIR, scenes.truth));
  for (const [name, scene] of [
    ["before.png", scenes.before],
    ["after.png", scenes.after],
  ] as const) {
    const { width, height, density, icc } = await sharp(
      await readFile(new URL(name, samples)),
    ).metadata();
    expect([width, height]).toEqual(framePixels(scene));
    expect(density).toBe(200);
    // A scanner's own colour: no profile may claim otherwise.
    expect(icc).toBeUndefined();
  }
});

test("all sample files together stay within 15 MB", async () => {
  const names = await readdir(samples, { recursive: true });
  const sizes = await Promise.all(
    names.map(async (name) => {
      const entry = await stat(new URL(name, samples));
      return entry.isFile() ? entry.size : 0;
    }),
  );
  expect(sizes.reduce((sum, size) => sum + size, 0)).toBeLessThan(15e6);
});
