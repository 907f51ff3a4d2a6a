import { writeFileSync } from "node:fs";
import { join } from "node:path";
import sharp from "sharp";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { cardNamed } from "../../src/card/cards.ts";
import type { Corners } from "../../src/card/parseCorners.ts";
import { openFrame } from "../../src/compare/openFrame.ts";
import { closeVision } from "../../src/vision/pool.ts";
import { renderChart } from "../support/renderChart.ts";
import { temporaryFolder } from "../support/temporaryFolder.ts";

const folder = temporaryFolder();
const CARD = cardNamed("chart24-post2014")!;
const here = (name: string): string => join(folder, name);
let corners: Corners;

beforeAll(async () => {
  const scene = { card: CARD, width: 560, height: 420, pitch: 60, noise: 0.5, seed: 8 };
  const { raster, centres } = await renderChart(scene);
  const { width, height } = raster;
  corners = [centres[0], centres[5], centres[23], centres[18]];
  const raw = sharp(raster.data as Uint8Array, { raw: { width, height, channels: 3 } });
  await raw.clone().withIccProfile("srgb").withDensity(300).png().toFile(here("profiled.png"));
  await raw.clone().png().toFile(here("untagged.png"));
  const plain = Buffer.alloc(3 * 200 * 150, 180);
  const sheet = sharp(plain, { raw: { width: 200, height: 150, channels: 3 } });
  await sheet.withIccProfile("srgb").withDensity(300).png().toFile(here("sheet.png"));
  writeFileSync(here("notes.png"), "no picture");
});

afterAll(closeVision);

const codes = (warnings: readonly { code: string }[]): string[] => warnings.map(({ code }) => code);

describe("a scan with its card", () => {
  test("the card in the frame: its outline and all patches; a missing profile is warned of, a missing resolution elsewhere", async () => {
    const profiled = await openFrame({ file: here("profiled.png"), card: CARD, strict: false });
    const untagged = await openFrame({ file: here("untagged.png"), card: CARD, strict: false });
    expect(codes(profiled.warnings)).toEqual([]);
    expect(codes(untagged.warnings)).toEqual(["no-profile"]);
    expect(profiled.samples).toHaveLength(24);
    expect(profiled.cardOutline).toHaveLength(4);
    profiled.placed.corners.forEach(([x, y], i) => {
      expect(Math.hypot(x - corners[i][0], y - corners[i][1])).toBeLessThan(0.1 * 60);
    });
    profiled.pixels.release();
    untagged.pixels.release();
  });

  test("the card in a scan of its own: the pixels are the sheet's, there is no outline, and what is to be said of that scan is said", async () => {
    const frame = await openFrame({
      file: here("sheet.png"),
      cardScan: here("untagged.png"),
      card: CARD,
      strict: false,
    });
    expect([frame.pixels.width, frame.info.widthPixels]).toEqual([200, 200]);
    expect(frame.cardOutline).toBeNull();
    expect(frame.samples).toHaveLength(24);
    expect(codes(frame.warnings)).toEqual(["no-profile"]);
    expect(frame.warnings[0].message).toContain("untagged.png");
    frame.pixels.release();
  });

  test("corners by hand are taken as they are; on the wrong place that shows as doubt or is refused", async () => {
    const request = { file: here("profiled.png"), card: CARD, strict: false };
    const frame = await openFrame({ ...request, corners });
    expect(frame.placed.corners).toEqual(corners);
    frame.pixels.release();
    const turned: Corners = [corners[2], corners[3], corners[0], corners[1]];
    const wrong = await openFrame({ ...request, corners: turned }).then(
      (opened) => codes(opened.warnings),
      (error: unknown) => (error as { code: string }).code,
    );
    expect([["card-doubtful"], "card-not-found"]).toContainEqual(wrong);
  });

  test("no card, or no picture: refused with the file's name", async () => {
    for (const [file, code] of [
      ["sheet.png", "card-not-found"],
      ["notes.png", "unsupported-format"],
    ])
      await expect(
        openFrame({ file: here(file), card: CARD, strict: false }),
      ).rejects.toMatchObject({ code, input: here(file) });
  });

  test("strict: a card scan without a profile is refused like a scan without one", async () => {
    await expect(
      openFrame({
        file: here("sheet.png"),
        cardScan: here("untagged.png"),
        card: CARD,
        strict: true,
      }),
    ).rejects.toMatchObject({ code: "unsupported-format", input: here("untagged.png") });
  });
});
