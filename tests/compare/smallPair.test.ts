import type { CompareRequest } from "../../src/compare/compareRequest.ts";
import { join } from "node:path";
import sharp from "sharp";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { renderPair, type RenderedPair } from "../../sample-images/scene/renderPair.ts";
import { USUAL_UNEVENNESS } from "../../src/calibrate/lightTerm.ts";
import { loadCard } from "../../src/card/loadCard.ts";
import { compareScans } from "../../src/compare/compareScans.ts";
import { evenBothLights } from "../../src/compare/evenBothLights.ts";
import { type Frame, openFrame } from "../../src/compare/openFrame.ts";
import { preparePair } from "../../src/compare/preparePair.ts";
import { sheetPair } from "../../src/compare/registerFrames.ts";
import { surveyScan } from "../../src/compare/surveyScan.ts";
import { quantile } from "../../src/numeric/statistics.ts";
import { SILENT } from "../../src/progress.ts";
import { mapPoint } from "../../src/register/mapPoint.ts";
import { closeVision } from "../../src/vision/pool.ts";
import { temporaryFolder } from "../support/temporaryFolder.ts";

/** A small cover at low resolution, for speed. */
const DPI = 110;
const folder = temporaryFolder();
let pair: RenderedPair;
let request: CompareRequest;

beforeAll(async () => {
  pair = renderPair({
    widthMm: 120,
    heightMm: 175,
    dpiBefore: DPI,
    dpiAfter: DPI,
    inkLoss: { yellow: 0, red: 0, blue: 0, black: 0 },
    seed: 31,
  });
  const files = await Promise.all(
    [pair.before, pair.after].map(async ({ data, width, height }, i) => {
      const file = join(folder, `${String(i)}.png`);
      await sharp(data, { raw: { width, height, channels: 3 } })
        .png({ compressionLevel: 1 })
        .toFile(file);
      return file;
    }),
  );
  request = {
    before: { file: files[0], state: "dry" },
    after: { file: files[1], state: "dry" },
    card: await loadCard(),
    dpi: DPI,
  };
});

afterAll(closeVision);

const opened = (): Promise<[Frame, Frame]> =>
  Promise.all([
    openFrame({ ...request.before, card: request.card, strict: false }),
    openFrame({ ...request.after, card: request.card, strict: false }),
  ]);

describe("what compareScans refuses before it measures", () => {
  test.each<[string, Partial<CompareRequest>, string]>([
    ["damp against dry", { after: { file: "x.png", state: "damp" } }, "frames-differ"],
    ["an unstated state taken for dry against wet", { before: { file: "x.png" }, after: { file: "y.png", state: "wet" } }, "frames-differ"], // prettier-ignore
    ["states left out, strict", { before: { file: "x.png" }, after: { file: "y.png" }, strict: true }, "wrong-use"], // prettier-ignore
    ["a file that is not there", { after: { file: "nowhere.png", state: "dry" } }, "unreadable"],
  ])("%s", async (_, more, code) => {
    await expect(compareScans({ ...request, ...more })).rejects.toMatchObject({ code });
  });

  test("one scan for both", async () => {
    await expect(compareScans({ ...request, after: request.before })).rejects.toMatchObject({
      code: "same-picture",
    });
  });
});

describe("a pair prepared for measuring", () => {
  let before: Frame;
  let after: Frame;
  let prepared: Awaited<ReturnType<typeof preparePair>>;
  const stages: string[] = [];

  beforeAll(async () => {
    [before, after] = await opened();
    prepared = await preparePair(before, after, request, {
      ...SILENT,
      report: (stage) => stages.push(stage),
    });
  });

  test("the after frame lies over the before frame to a pixel, and the report says how well", () => {
    const { map, report } = prepared.registration;
    const { truth } = pair;
    expect(report.points.length).toBeGreaterThan(20);
    const off = report.points.map(({ before: [x, y] }) => {
      const [u, v] = mapPoint(map, x, y);
      const [tu, tv] = truth.mapBeforeToAfterPixels(x, y);
      return Math.hypot(u - tu, v - tv);
    });
    // Pixels of a quarter millimetre; the cockle's crests are the worst.
    expect(quantile(off, 0.95)).toBeLessThan(1);
    expect(report.residualP95Pixels).toBeLessThan(1);
    expect(report.accepted).toBe(true);
  });

  test("planes keep the scan's own resolution, tables of both frames one scale", () => {
    expect([prepared.scale.before, prepared.scale.after]).toEqual([DPI, DPI]);
    expect(prepared.beforePlanes.stepX).toBe(1);
    expect(prepared.mmPerCell).toBeCloseTo(25.4 / DPI, 12);
    expect(prepared.corrections).toHaveLength(2);
    expect(prepared.regions.inks.length).toBeGreaterThan(2);
    expect(stages[0]).toBe("calibrating");
  });

  test("full pixels are let go once nothing reads them", () => {
    expect(() => {
      before.pixels.release();
      after.pixels.release();
    }).not.toThrow();
  });

  test("light: with the card in a scan of its own the bed is no control, so the usual unevenness stands", async () => {
    const [one, other] = await opened();
    const light = evenBothLights(
      [{ ...one, cardOutline: null }, other],
      [prepared.beforePlanes, prepared.afterPlanes],
      prepared.corrections,
      prepared.scale,
      prepared.regions.sheet.mask,
    );
    expect(light).toEqual({ share: USUAL_UNEVENNESS, warnings: [] });
    // With it, the bed round this sheet says better.
    expect(prepared.light.share).toBeLessThanOrEqual(USUAL_UNEVENNESS);
    one.pixels.release();
    other.pixels.release();
  });

  test("key points of both sheets are sought, also in two pages of one file, which have one hash", async () => {
    const [one, other] = await opened();
    const twin = { ...other, info: { ...other.info, sha256: one.info.sha256 } };
    const sheets = await sheetPair(one, twin, prepared.scale);
    expect(sheets).toHaveLength(2);
    for (const { sheet } of sheets) expect(sheet.finest.pixels.length).toBeGreaterThan(10_000);
    one.pixels.release();
    other.pixels.release();
  });
});

describe("a survey of one scan", () => {
  test("paper and inks with their colours and areas; the resolution taken from the card is said once", async () => {
    const { paperLab, inks, warnings, dpi } = await surveyScan({ ...request.before, card: request.card, dpi: DPI }); // prettier-ignore
    const truth = pair.truth.paper.labBefore;
    // The card's own error of 1 dE00 and the screen of what is called bare.
    paperLab?.forEach((value, i) => {
      expect(Math.abs(value - truth[i])).toBeLessThan(2.5);
    });
    expect(paperLab).not.toBeNull();
    const ids = inks.map(({ id }) => id);
    expect(ids).toContain("red");
    expect(new Set(ids).size).toBe(ids.length);
    expect(inks.some(({ kind }) => kind === "black")).toBe(true);
    for (const { areaCm2 } of inks) expect(areaCm2).toBeGreaterThan(0);
    // The cover has 210 cm2.
    expect(inks.reduce((sum, ink) => sum + ink.areaCm2, 0)).toBeLessThan(210);
    expect(dpi).toBeCloseTo(DPI, 9);
    expect(warnings.filter(({ code }) => code === "no-dpi")).toEqual([]);
  });
});
