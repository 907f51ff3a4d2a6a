import type { JarReading } from "../../src/jar/jarReading.ts";
import { readFileSync } from "node:fs";
import { afterAll, describe, expect, test } from "vitest";
import { chooseCorrection } from "../../src/calibrate/chooseCorrection.ts";
import type { Card } from "../../src/card/card.ts";
import { cardNamed } from "../../src/card/cards.ts";
import { findCard } from "../../src/card/findCard.ts";
import { samplePatches } from "../../src/card/samplePatches.ts";
import { measureBlotter } from "../../src/blotter/measureBlotter.ts";
import { measureSeries } from "../../src/jar/measureSeries.ts";
import { openJarPhoto } from "../../src/jar/openJarPhoto.ts";
import { readStation } from "../../src/jar/place/readStation.ts";
import { readScan } from "../../src/raster/readScan.ts";
import { closeVision } from "../../src/vision/pool.ts";

/** The shipped jar and blotter photos against the amounts they were computed from, read as a user would have them read. */

afterAll(closeVision);

const sample = (name: string): string =>
  new URL(`../../sample-images/${name}`, import.meta.url).pathname;

interface Truth {
  readonly baths: readonly { readonly file: string; readonly absorbancePerCm: number[] }[];
  readonly blotters: readonly {
    readonly ink: string;
    readonly file: string;
    readonly deltaE00: number;
    readonly verdict: string;
  }[];
}
const TRUTH = JSON.parse(readFileSync(sample("jar-truth.json"), "utf8")) as Truth;
const CARD = cardNamed("chart24-post2014") as Card;

/** Phone-like limits: the samples have a bent tone curve, JPEG and a little turbidity. */
function expectBaths(readings: readonly JarReading[]): void {
  readings.forEach((reading, i) =>
    TRUTH.baths[i].absorbancePerCm.forEach((truth, c) =>
      expect(Math.abs(reading.absorbancePerCm[c] - truth)).toBeLessThan(0.008 + 0.12 * truth),
    ),
  );
  // What matters most: soil falls from bath to bath, by the right share within a quarter.
  const blue = readings.map((reading) => reading.absorbancePerCm[2]);
  const wanted = TRUTH.baths.map((bath) => bath.absorbancePerCm[2]);
  for (let i = 1; i < blue.length; i++)
    expect(Math.abs(blue[i] / blue[i - 1] / (wanted[i] / wanted[i - 1]) - 1)).toBeLessThan(0.25);
}

describe("jar photos", () => {
  test("by their station file", async () => {
    const station = await readStation(sample("station.json"));
    const corners = station.card?.cornersPixels ?? null;
    const blank = await openJarPhoto(sample("jar-blank.jpg"), CARD, corners);
    const baths = await Promise.all(
      TRUTH.baths.map((bath) => openJarPhoto(sample(bath.file), CARD, corners)),
    );
    const readings = measureSeries(
      baths.map((bath) => bath.photo),
      blank.photo,
      station,
    );
    expectBaths(readings);
    for (const { warnings } of readings) expect(warnings).toEqual([]);
  });

  test("without one: card and printed backing are found", async () => {
    const blank = await openJarPhoto(sample("jar-blank.jpg"), CARD);
    const corners = blank.card?.corners ?? null;
    expect(corners).not.toBeNull();
    const baths = await Promise.all(
      TRUTH.baths.map((bath) => openJarPhoto(sample(bath.file), CARD, corners)),
    );
    const shape = { jar: "flat", insideMm: 50, passes: 1 } as const;
    expectBaths(
      measureSeries(
        baths.map((bath) => bath.photo),
        blank.photo,
        shape,
      ),
    );
  });
});

test.each(TRUTH.blotters)("blotter photo of $ink", async ({ file, deltaE00, verdict }) => {
  const { raster } = await readScan(sample(file));
  const placed = await findCard(raster, CARD, file);
  const { frames } = chooseCorrection([{ samples: samplePatches(raster, CARD, placed) }], CARD);
  const [a, b, c, d] = placed.corners;
  const outline = [
    [a[0] - 40, a[1] - 40],
    [b[0] + 40, b[1] - 40],
    [c[0] + 40, c[1] + 40],
    [d[0] - 40, d[1] + 40],
  ] as const;
  const reading = measureBlotter(raster, frames[0].correction, null, outline, file);
  expect(reading.verdict).toBe(verdict);
  // Within a sixth and 0.6: a phone by a fitted model is no spectrophotometer.
  expect(Math.abs(reading.deltaE00 - deltaE00)).toBeLessThan(0.6 + deltaE00 / 6);
});
