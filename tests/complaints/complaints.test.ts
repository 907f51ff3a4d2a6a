/**
 * What users of other imaging programs complained of in public issue threads, as trials of this tool. Repositories are named where they are
 * general-purpose open-source libraries.
 */
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import sharp, { type Sharp } from "sharp";
import { afterAll, describe, expect, test } from "vitest";
import { chooseCorrection } from "../../src/calibrate/chooseCorrection.ts";
import { CARDS } from "../../src/card/cards.ts";
import { findCard } from "../../src/card/findCard.ts";
import { samplePatches } from "../../src/card/samplePatches.ts";
import { adaptationMatrix } from "../../src/colour/adapt.ts";
import { ciede2000 } from "../../src/colour/ciede2000.ts";
import { xyzD50ToLab, xyzToLab } from "../../src/colour/lab.ts";
import { decodeSrgb, encodeSrgb, SRGB_TO_XYZ_D50 } from "../../src/colour/srgb.ts";
import { srgbToLabD50 } from "../support/srgbToLabD50.ts";
import type { Triple } from "../../src/numeric/triple.ts";
import { WHITE_D50, WHITE_D65 } from "../../src/colour/whites.ts";
import { multiply3Vector } from "../../src/numeric/matrix3.ts";
import { mean } from "../../src/numeric/statistics.ts";
import { encodePng } from "../../src/picture/encodePng.ts";
import { linearPlanes } from "../../src/raster/linearPlanes.ts";
import type { Raster } from "../../src/raster/raster.ts";
import { readScan } from "../../src/raster/readScan.ts";
import { srgbTables } from "../../src/raster/srgbTables.ts";
import { registerSheets } from "../../src/register/registerSheets.ts";
import { inksCsv } from "../../src/report/inksCsv.ts";
import { closeVision } from "../../src/vision/pool.ts";
import { outlineOf, residuals } from "../support/registrationCase.ts";
import { renderPair, SMALL } from "../support/registrationCases.ts";
import { renderChart } from "../support/renderChart.ts";
import { jsonOf, runCli } from "../support/runCli.ts";
import { temporaryFolder } from "../support/temporaryFolder.ts";
import { compareResult } from "../support/treatmentView.ts";

afterAll(closeVision);

const folder = temporaryFolder();
const path = (name: string): string => join(folder, name);
const [CHART] = CARDS;

/** A small picture whose codes run through all channels. */
function pattern(width: number, height: number): Uint8Array {
  return Uint8Array.from({ length: 3 * width * height }, (_, i) => (i * 37) % 256);
}

async function writePicture(name: string, width: number, height: number): Promise<string> {
  const data = pattern(width, height);
  writeFileSync(path(name), await encodePng({ width, height, channels: 3, data }, 300));
  return path(name);
}

function meanLab({ data, bitDepth }: Raster): Triple {
  const full = 2 ** bitDepth - 1;
  const channel = (c: number): number =>
    mean(Array.from({ length: data.length / 3 }, (_, i) => decodeSrgb(data[3 * i + c] / full)));
  return xyzD50ToLab(multiply3Vector(SRGB_TO_XYZ_D50, [channel(0), channel(1), channel(2)]));
}

test("1. colours recomputed at each save (lovell/sharp): written and read five times, the mean Lab stays", async () => {
  let file = await writePicture("save-0.png", 40, 30);
  const first = meanLab((await readScan(file)).raster);
  for (let round = 1; round <= 5; round++) {
    const { raster } = await readScan(file);
    file = path(`save-${String(round)}.png`);
    const { width, height, data } = raster;
    writeFileSync(file, await encodePng({ width, height, channels: 3, data: data as Uint8Array }));
    meanLab((await readScan(file)).raster).forEach((value, i) =>
      expect(Math.abs(value - first[i])).toBeLessThan(0.01),
    );
  }
});

test("2. a 16-bit file read as 8 bit without a word (lovell/sharp): a ramp keeps 60,000 values and more", async () => {
  const data = Uint16Array.from({ length: 3 * 65536 }, (_, i) => Math.floor(i / 3));
  const file = path("ramp.png");
  await sharp(data, { raw: { width: 256, height: 256, channels: 3 } })
    .toColourspace("rgb16")
    .png()
    .toFile(file);
  const { raster } = await readScan(file);
  expect(raster.bitDepth).toBe(16);
  expect(new Set(raster.data).size).toBeGreaterThanOrEqual(60_000);
});

test("3. three libraries, three Labs for pure blue (Pillow): ours is D50 by Bradford, and the result says so", () => {
  // 29.564 68.287 -112.034 to the rounding of the standard's matrix.
  const blue = srgbToLabD50([0, 0, 1]);
  [29.564, 68.287, -112.034].forEach((v, i) => expect(Math.abs(blue[i] - v)).toBeLessThan(0.02));
  expect(compareResult().colour).toEqual({
    illuminant: "D50",
    observer: "2deg",
    difference: "CIEDE2000",
  });
});

test("4. two D50 whites in one specification (csswg-drafts): white is 100 0 0 by every route", () => {
  const white = srgbToLabD50([1, 1, 1]);
  [100, 0, 0].forEach((v, i) => expect(Math.abs(white[i] - v)).toBeLessThan(0.001));
  [100, 0, 0].forEach((v, i) => expect(xyzD50ToLab(WHITE_D50)[i]).toBeCloseTo(v, 9));
});

test("5. a white-point argument silently ignored (Little-CMS): numbers differ, neutral stays neutral, mixing shows", () => {
  const xyz: Triple = [0.4, 0.42, 0.3];
  expect(xyzToLab(xyz, WHITE_D50)).not.toEqual(xyzToLab(xyz, WHITE_D65));
  const grey = multiply3Vector(adaptationMatrix(WHITE_D65, WHITE_D50), [
    WHITE_D65[0] / 3,
    WHITE_D65[1] / 3,
    WHITE_D65[2] / 3,
  ]);
  const [, a, b] = xyzD50ToLab(grey);
  expect(Math.hypot(a, b)).toBeLessThan(1e-9);
  // The same sRGB colour in D50 and in D65 Lab, wrongly compared: 1.82, printed to 2 decimals.
  const code: Triple = [230 / 255, 215 / 255, 180 / 255];
  const d50 = srgbToLabD50(code);
  const xyzD50 = multiply3Vector(SRGB_TO_XYZ_D50, [
    decodeSrgb(code[0]),
    decodeSrgb(code[1]),
    decodeSrgb(code[2]),
  ]);
  const xyzD65 = multiply3Vector(adaptationMatrix(WHITE_D50, WHITE_D65), xyzD50);
  expect(ciede2000(d50, xyzToLab(xyzD65, WHITE_D65))).toBeCloseTo(1.82, 1);
});

test("6. points on a picture turned by its orientation tag (lovell/sharp): eight copies, one upright region", async () => {
  const upright = await sharp(pattern(12, 8), { raw: { width: 12, height: 8, channels: 3 } })
    .png()
    .toBuffer();
  const stored: Record<number, (image: Sharp) => Sharp> = {
    1: (image) => image,
    2: (image) => image.flop(),
    3: (image) => image.rotate(180),
    4: (image) => image.flip(),
    6: (image) => image.rotate(270),
    8: (image) => image.rotate(90),
  };
  const regions: string[] = [];
  for (const [orientation, turn] of Object.entries(stored)) {
    const turned = await turn(sharp(upright)).png().toBuffer();
    const file = path(`turned-${orientation}.png`);
    await sharp(turned)
      .withMetadata({ orientation: Number(orientation) })
      .png()
      .toFile(file);
    const { raster, info } = await readScan(file);
    expect(info.orientation).toBe(Number(orientation));
    // A named place: row 2, columns 3 to 5.
    regions.push(raster.data.slice(3 * (2 * 12 + 3), 3 * (2 * 12 + 6)).join(","));
  }
  expect(new Set(regions).size).toBe(1);
});

describe("7. a chart found flipped, or otherwise in another file format (colour-science/colour-checker-detection)", () => {
  const scene = { card: CHART, width: 700, height: 700, pitch: 62, seed: 4 };

  test("at 0, 90, 180, 270 degrees and tilted under a warm cast: the right order", async () => {
    for (const turnDegrees of [0, 90, 180, 270]) {
      const { raster, centres } = await renderChart({
        ...scene,
        turnDegrees: turnDegrees + 3,
        tilt: [0.08, 0.05],
        gains: [1.05, 0.9, 0.7],
      });
      const placed = await findCard(raster, CHART);
      placed.centres.forEach(([x, y], i) =>
        expect(Math.hypot(x - centres[i][0], y - centres[i][1])).toBeLessThan(0.1 * 62),
      );
    }
  });

  test("mirrored: refused, and named as mirrored", async () => {
    const { raster } = await renderChart({ ...scene, mirrored: true });
    await expect(findCard(raster, CHART)).rejects.toMatchObject({ code: "card-not-found" });
    await expect(findCard(raster, CHART)).rejects.toThrow(/mirror/);
  });

  test("the same pixels as PNG and as TIFF: the same figures", async () => {
    const { raster } = await renderChart(scene);
    const { width, height } = raster;
    const raw = sharp(raster.data as Uint8Array, { raw: { width, height, channels: 3 } });
    await raw.clone().png().toFile(path("chart.png"));
    await raw.clone().tiff({ compression: "none" }).toFile(path("chart.tif"));
    const check = async (name: string) => {
      const run = await runCli(["card", "check", path(name), "--json"]);
      return (jsonOf(run) as { patches: unknown }).patches;
    };
    expect(await check("chart.png")).toEqual(await check("chart.tif"));
  });
});

test("8. a multi-page file ends in an abort (Pillow): the page asked for is read, a missing one is named", async () => {
  const pages = 20;
  const file = path("pages.tif");
  const [width, height] = [16, 16];
  const tall = Uint8Array.from({ length: 3 * width * height * pages }, (_, i) =>
    Math.floor(i / (3 * width * height)),
  );
  await sharp(tall, { raw: { width, height: height * pages, channels: 3, pageHeight: height } })
    .tiff({ compression: "none" })
    .toFile(file);
  const { raster, info } = await readScan(file, { page: 7 });
  expect(info.pages).toBe(pages);
  expect(new Set(raster.data)).toEqual(new Set([6]));
  await expect(readScan(file, { page: 21 })).rejects.toThrow(/20/);
});

test("9. alignment that fails unnoticed (opencv): half a per cent of stretch, 2 degrees and a lighter sheet are followed within 1 px", async () => {
  const { sides, before, after } = await renderPair(SMALL, {
    name: "stretched, turned, lighter",
    lie: { rotationDegrees: 2, scale: 1.005 },
    condition: { whitening: 8 },
    before: { dpi: 150 },
    after: { dpi: 150 },
    limit: 1,
  });
  const registration = await registerSheets(before, after, {
    sheetOutline: outlineOf(SMALL, sides.before),
  });
  // px of these 150 dpi scans: a quarter of the 600 dpi unit.
  const { p95 } = residuals(registration, SMALL, sides.before, sides.after);
  expect(p95 / 4).toBeLessThan(1);
  const blank = {
    ...after,
    grey: (width: number, height: number) =>
      Promise.resolve({ pixels: new Uint8Array(width * height).fill(190), width, height }),
  };
  await expect(registerSheets(before, blank)).rejects.toMatchObject({
    code: "registration-failed",
  });
});

test("10. 8-bit values in 16-bit words read as black: flagged, measured as what they are", async () => {
  const data = Uint16Array.from({ length: 3 * 64 }, (_, i) => (i * 3) % 256);
  const file = path("under-filled.png");
  await sharp(data, { raw: { width: 8, height: 8, channels: 3 } })
    .toColourspace("rgb16")
    .png()
    .toFile(file);
  const { raster, warnings } = await readScan(file);
  expect(warnings.map(({ code }) => code)).toContain("under-filled-range");
  expect(raster.bitDepth).toBe(8);
  expect(Math.max(...raster.data)).toBeGreaterThan(150);
});

test("11. averaging code values darkens halftones: a checkerboard is 188, not 128, and a half-covered tint is its light's mean", () => {
  const checker: Raster = {
    width: 8,
    height: 8,
    bitDepth: 8,
    data: Uint8Array.from({ length: 3 * 64 }, (_, i) => {
      const pixel = Math.floor(i / 3);
      return ((pixel % 8) + Math.floor(pixel / 8)) % 2 === 0 ? 255 : 0;
    }),
  };
  const [plane] = linearPlanes(checker, srgbTables(8), 8).channels;
  expect(Math.round(255 * encodeSrgb(plane[0]))).toBe(188);
});

describe("12, 13. a tone setting that the user thinks is off", () => {
  test("contrast raised by 10 % between the frames, or greys apart by more than 1 L*: warned, greys named, figures still given", async () => {
    const scene = { card: CHART, width: 640, height: 480, pitch: 70, noise: 0.5, seed: 6 };
    const plain = await renderChart(scene);
    const contrasted = await renderChart({
      ...scene,
      tone: (linear) => Math.min(1, Math.max(0, (encodeSrgb(linear) - 0.5) * 1.1 + 0.5)),
    });
    const samplesOf = async (raster: Raster) => ({
      samples: samplePatches(raster, CHART, await findCard(raster, CHART)),
    });
    const frames = [await samplesOf(plain.raster), await samplesOf(contrasted.raster)];
    const { warnings, frames: calibrated } = chooseCorrection(frames, CHART);
    const tone = warnings.find(({ code }) => code === "tone-differs");
    expect(tone?.message).toMatch(/neutral|white|black/);
    // The calibration takes out what the card shows: it may not be blocked below a leave-one-out of 8.
    for (const { leaveOneOut } of calibrated) expect(leaveOneOut?.mean).toBeLessThan(8);
  });
});

test("14. comma decimals break tables: every cell of numbers parses back, whatever the language", () => {
  const [head, ...rows] = inksCsv(compareResult()).trim().split("\r\n");
  const names = head.split(",");
  for (const row of rows)
    row.split(",").forEach((cell, i) => {
      if (/^(L|a|b|dE00|dL|dC|dH|area)_|^dE00$/.test(names[i]) && cell !== "")
        expect(String(Number(cell))).not.toBe("NaN");
    });
  expect(rows[0]).not.toMatch(/\d,\d{3},/);
});

test("15. no profile and nothing said (lovell/sharp): a note in the result, a refusal under strict", async () => {
  const file = await writePicture("untagged.png", 20, 20);
  const { warnings } = await readScan(file);
  expect(warnings.map(({ code }) => code)).toContain("no-profile");
  await expect(readScan(file, { strict: true })).rejects.toMatchObject({
    code: "unsupported-format",
  });
});
