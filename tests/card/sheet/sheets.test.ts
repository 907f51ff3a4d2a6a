import sharp from "sharp";
import { afterAll, describe, expect, test } from "vitest";
import { JAR_BACKING } from "../../../calibration/jar-backing.ts";
import { STRIP_CARD_LAYOUT } from "../../../calibration/strip-card.ts";
import type { Card } from "../../../src/card/card.ts";
import { cardNamed } from "../../../src/card/cards.ts";
import { findCard } from "../../../src/card/findCard.ts";
import { MATCH_ACCEPTED } from "../../../src/card/matchResidual.ts";
import type { Drawing } from "../../../src/card/sheet/drawing.ts";
import { drawSheets } from "../../../src/card/sheet/drawSheets.ts";
import { jarBackingSheet } from "../../../src/card/sheet/jarBackingSheet.ts";
import { sheetSvg } from "../../../src/card/sheet/sheetSvg.ts";
import { stripCardDrawing } from "../../../src/card/sheet/stripCardDrawing.ts";
import { stripCardSheet } from "../../../src/card/sheet/stripCardSheet.ts";
import { srgbToLabD50 } from "../../support/srgbToLabD50.ts";
import { closeVision } from "../../../src/vision/pool.ts";

afterAll(closeVision);

const PIXELS_PER_MM = 10;

/** The drawing as its SVG file shows it: sharp's density d counts twice for lengths in mm (d pixels an inch, then scaled by d / 72). */
async function rendered(
  drawing: Drawing,
): Promise<{ at: (x: number, y: number) => number[]; width: number; height: number }> {
  const { data, info } = await sharp(Buffer.from(sheetSvg(drawing)), {
    density: Math.sqrt(PIXELS_PER_MM * 25.4 * 72),
  })
    .removeAlpha()
    .raw()
    .toBuffer({ resolveWithObject: true });
  const at = (x: number, y: number): number[] => {
    const start = 3 * (Math.floor(y * PIXELS_PER_MM) * info.width + Math.floor(x * PIXELS_PER_MM));
    return [...data.subarray(start, start + 3)];
  };
  return { at, width: info.width, height: info.height };
}

test("sheets come out true size, as SVG and as PDF, the same bytes each time", async () => {
  const sheets = await drawSheets();
  const again = await drawSheets();
  expect(sheets.map((sheet) => sheet.name)).toEqual(["strip-card", "jar-backing"]);
  sheets.forEach((sheet, i) => {
    expect(sheet.svg).toContain('width="297mm" height="210mm" viewBox="0 0 297 210"');
    // A4 across in points: 297 and 210 mm times 72 / 25.4.
    const box = /MediaBox \[0 0 ([\d.]+) ([\d.]+)\]/.exec(sheet.pdf.toString("latin1"));
    expect(Number(box?.[1])).toBeCloseTo(841.89, 2);
    expect(Number(box?.[2])).toBeCloseTo(595.276, 2);
    expect(again[i].svg).toBe(sheet.svg);
    expect(again[i].pdf.equals(sheet.pdf)).toBe(true);
  });
});

test("the SVG's own size is that of the paper", async () => {
  const { width, height } = await rendered(jarBackingSheet());
  // Half a millimetre for the renderer's rounding of mm to its pixels.
  expect(Math.abs(width / PIXELS_PER_MM - JAR_BACKING.widthMm)).toBeLessThan(0.5);
  expect(Math.abs(height / PIXELS_PER_MM - JAR_BACKING.heightMm)).toBeLessThan(0.5);
});

test("the backing shows white then black in each period, past both sides", async () => {
  const { at } = await rendered(jarBackingSheet());
  for (const { kind, fromMm, toMm } of JAR_BACKING.zones) {
    const period = kind === "wide" ? JAR_BACKING.widePeriodMm : JAR_BACKING.narrowPeriodMm;
    expect((toMm - fromMm) % period).toBe(0);
    for (let top = fromMm; top < toMm; top += period)
      for (const x of [JAR_BACKING.stripesLeftMm + 2, 148, JAR_BACKING.stripesRightMm - 2]) {
        expect(at(x, top + period / 4)[1]).toBe(255);
        expect(at(x, top + (3 * period) / 4)[1]).toBe(0);
      }
  }
});

test("nested squares: only the origin has a hole", async () => {
  const { at } = await rendered(jarBackingSheet());
  const centres = JAR_BACKING.fiducialsMm.map(([x, y]) => at(x, y)[1]);
  expect(centres).toEqual([255, 0, 0, 0]);
  for (const [x, y] of JAR_BACKING.fiducialsMm) {
    // Ring, gap, core along a radius: 0.5, 0.36, 0.21 of the side.
    expect(at(x + 0.43 * JAR_BACKING.fiducialMm, y)[1]).toBe(0);
    expect(at(x + 0.29 * JAR_BACKING.fiducialMm, y)[1]).toBe(255);
    expect(at(x + 0.16 * JAR_BACKING.fiducialMm, y)[1]).toBe(0);
  }
});

describe("strip card", () => {
  const card = cardNamed("strip");

  test("fits beside a cover on an A4 bed and is known as an unmeasured card", () => {
    expect(STRIP_CARD_LAYOUT.widthMm).toBeLessThanOrEqual(200);
    expect(STRIP_CARD_LAYOUT.heightMm).toBeLessThanOrEqual(28);
    expect(card).toMatchObject({ rows: 2, columns: 15, measured: false, pitchMm: 10 });
    expect(card?.patches).toHaveLength(30);
  });

  test("has the 24 colour aims, and the same greys at both ends", () => {
    const aims = new Set(card?.patches.map((patch) => patch.lab.join()));
    expect(aims.size).toBe(24);
    const greysOfColumns = (first: number, last: number): number[] =>
      (card?.patches ?? [])
        .filter((_, i) => i % 15 >= first && i % 15 <= last)
        .map((patch) => (patch.neutral ? patch.lab[0] : NaN))
        .sort((a, b) => a - b);
    expect(greysOfColumns(0, 2)).toEqual([25, 36, 50, 65, 80, 92]);
    expect(greysOfColumns(12, 14)).toEqual([25, 36, 50, 65, 80, 92]);
  });

  test("prints its aims: each patch of the SVG has the Lab it is listed with", async () => {
    const { at } = await rendered(stripCardDrawing());
    const { firstMm, pitchMm, columns } = STRIP_CARD_LAYOUT;
    (card?.patches ?? []).forEach((patch, i) => {
      const rgb = at(
        firstMm[0] + (i % columns) * pitchMm,
        firstMm[1] + Math.floor(i / columns) * pitchMm,
      );
      const lab = srgbToLabD50([rgb[0] / 255, rgb[1] / 255, rgb[2] / 255]);
      // 8-bit rounding is below 0.5; cyan (55, -25, -28) lies a little outside sRGB and is clipped in red.
      const limit = patch.name === "cyan" ? 4 : 0.6;
      expect(Math.hypot(...lab.map((value, c) => value - patch.lab[c])), patch.name).toBeLessThan(
        limit,
      );
    });
  });

  test("is found on a scanner bed by its patches, right way round", async () => {
    const dpi = 150;
    const scale = dpi / 25.4;
    const strip = await sharp(Buffer.from(sheetSvg(stripCardDrawing())), {
      density: Math.sqrt(scale * 25.4 * 72),
    })
      .resize(Math.round(STRIP_CARD_LAYOUT.widthMm * scale))
      .rotate(1.5, { background: "#d8d2c4" })
      .png()
      .toBuffer();
    const width = Math.round(216 * scale);
    const height = Math.round(120 * scale);
    const [left, top] = [Math.round(5 * scale), Math.round(60 * scale)];
    const bed = { width, height, channels: 3 as const, background: "#d8d2c4" };
    const { data } = await sharp({ create: bed })
      .composite([{ input: strip, left, top }])
      .removeAlpha()
      .raw()
      .toBuffer({ resolveWithObject: true });
    const raster = { width, height, bitDepth: 8 as const, data: new Uint8Array(data) };
    const found = await findCard(raster, card as Card);
    // sharp turns about the middle and enlarges the picture by the turn.
    const a = (1.5 * Math.PI) / 180;
    const { widthMm: w, heightMm: h, firstMm, pitchMm, columns, rows } = STRIP_CARD_LAYOUT;
    const turned = (x: number, y: number): [number, number] => {
      const outer = [w * Math.cos(a) + h * Math.sin(a), w * Math.sin(a) + h * Math.cos(a)];
      const [u, v] = [x - w / 2, y - h / 2];
      return [
        left + scale * (outer[0] / 2 + u * Math.cos(a) - v * Math.sin(a)),
        top + scale * (outer[1] / 2 + u * Math.sin(a) + v * Math.cos(a)),
      ];
    };
    const [right, bottom] = [
      firstMm[0] + (columns - 1) * pitchMm,
      firstMm[1] + (rows - 1) * pitchMm,
    ];
    const expected = [
      turned(firstMm[0], firstMm[1]),
      turned(right, firstMm[1]),
      turned(right, bottom),
      turned(firstMm[0], bottom),
    ];
    // A tenth of the pitch: the limit for all cards.
    found.corners.forEach(([x, y], i) =>
      expect(Math.hypot(x - expected[i][0], y - expected[i][1])).toBeLessThan(
        0.1 * pitchMm * scale,
      ),
    );
    expect(found.matchResidual).toBeLessThan(MATCH_ACCEPTED);
  });

  test("text stands below the patches, never on one", () => {
    const { shapes } = stripCardDrawing();
    const { firstMm, pitchMm, rows } = STRIP_CARD_LAYOUT;
    const bottom = firstMm[1] + (rows - 1) * pitchMm + pitchMm / 2;
    for (const shape of shapes)
      if (shape.kind === "text") expect(shape.y - shape.size).toBeGreaterThan(bottom);
  });

  test("the page's check ruler is 100 mm in whole millimetres", () => {
    for (const sheet of [stripCardSheet(), jarBackingSheet()]) {
      const ticks = sheet.shapes.flatMap((shape) =>
        shape.kind === "line" &&
        shape.from[0] === shape.to[0] &&
        Math.abs(shape.width - 0.18) < 1e-9
          ? [shape.from[0]]
          : [],
      );
      const first = Math.min(...ticks);
      expect(Math.max(...ticks) - first).toBeCloseTo(100, 9);
      expect(ticks).toHaveLength(101);
    }
  });
});
