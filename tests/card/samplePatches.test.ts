import { expect, test } from "vitest";
import { CARDS } from "../../src/card/cards.ts";
import { samplePatches } from "../../src/card/samplePatches.ts";
import { decodeSrgb, encodeSrgb } from "../../src/colour/srgb.ts";
import type { Raster } from "../../src/raster/raster.ts";
import { linearOfLab, renderChart } from "../support/renderChart.ts";

const [card] = CARDS;
const base = { card, width: 640, height: 480, pitch: 80 } as const;
const asPlaced = (chart: Awaited<ReturnType<typeof renderChart>>) => ({
  corners: chart.corners,
  centres: chart.centres,
  matchResidual: 0,
});
const clip = (value: number): number => Math.min(1, Math.max(0, value));

test.each([8, 16] as const)(
  "an ideal frame of %i bit gives back the reference colours",
  async (bitDepth) => {
    const chart = await renderChart({
      ...base,
      bitDepth,
      noise: 0,
      turnDegrees: 20,
      tilt: [0.2, 0.1],
    });
    const samples = samplePatches(chart.raster, card, asPlaced(chart));
    expect(samples.map((s) => s.name)).toEqual(card.patches.map((p) => p.name));
    for (const [i, sample] of samples.entries()) {
      const wanted = linearOfLab(card.patches[i].lab);
      for (let c = 0; c < 3; c++) {
        // Half a code step at the brightest: 0.5 / full scale times the slope of the decoding curve, at most 2.3.
        const step = (0.5 * 2.3) / (2 ** bitDepth - 1);
        expect(Math.abs(sample.linear[c] - clip(wanted[c]))).toBeLessThan(step + 1e-6);
        expect(sample.deviation[c]).toBeLessThan(1e-6);
      }
    }
  },
);

test("the area read is 44 % of the pitch squared, in the card's perspective", async () => {
  const chart = await renderChart({ ...base, noise: 0, turnDegrees: 30 });
  for (const { pixels } of samplePatches(chart.raster, card, asPlaced(chart)))
    // The pixels in a turned square of side 35.2: area 1239, uncertain by its outline.
    expect(Math.abs(pixels - (0.44 * 80) ** 2)).toBeLessThan(30);
});

test("noise is averaged away in linear light and shows as deviation", async () => {
  const chart = await renderChart({ ...base, noise: 3 });
  const samples = samplePatches(chart.raster, card, asPlaced(chart));
  const grey = samples[21];
  const code = encodeSrgb(linearOfLab(card.patches[21].lab)[1]);
  const slope = (decodeSrgb(code + 0.001) - decodeSrgb(code - 0.001)) / 0.002;
  // Rounding to whole codes adds 1/12 to the variance of the noise; 1200 pixels fix the deviation to 2 %.
  expect(grey.deviation[1] / slope / (Math.sqrt(9 + 1 / 12) / 255)).toBeCloseTo(1, 1);
  // Standard error of the mean: 3 codes / sqrt(1200), here times 4.
  expect(Math.abs(grey.linear[1] - decodeSrgb(code)) / slope).toBeLessThan((4 * 3) / 255 / 34);
});

/** Paints a disc into a copy of a frame. */
function withDisc(
  { raster }: { raster: Raster },
  [cx, cy]: readonly number[],
  radius: number,
  code: number,
): Raster {
  const data = raster.data.slice();
  for (let y = 0; y < raster.height; y++)
    for (let x = 0; x < raster.width; x++)
      if (Math.hypot(x - cx, y - cy) < radius)
        data.fill(code, 3 * (y * raster.width + x), 3 * (y * raster.width + x) + 3);
  return { ...raster, data };
}

test("dust, a glint and a scratch are left out", async () => {
  const chart = await renderChart({ ...base, noise: 2 });
  const clean = samplePatches(chart.raster, card, asPlaced(chart));
  for (const code of [0, 255]) {
    const spot = chart.centres[8];
    const dusty = samplePatches(
      withDisc(chart, [spot[0] + 6, spot[1] - 4], 5, code),
      card,
      asPlaced(chart),
    );
    for (let c = 0; c < 3; c++) {
      // The spot covers 6 % of what is read: as a plain mean it would move the red channel by 0.02 and more.
      expect(Math.abs(dusty[8].linear[c] - clean[8].linear[c])).toBeLessThan(0.001);
      expect(dusty[9].linear[c]).toBe(clean[9].linear[c]);
    }
    expect(dusty[8].pixels).toBeLessThan(clean[8].pixels);
  }
});

test("a halftone is no dust: its mean counts every dot", async () => {
  const chart = await renderChart({ ...base, noise: 0 });
  const { raster } = chart;
  const data = raster.data.slice();
  // Every second pixel in both directions black: a quarter of the area.
  for (let y = 0; y < raster.height; y += 2)
    for (let x = 0; x < raster.width; x += 2)
      data.fill(0, 3 * (y * raster.width + x), 3 * (y * raster.width + x) + 3);
  const screened = samplePatches({ ...raster, data }, card, asPlaced(chart));
  const solid = samplePatches(raster, card, asPlaced(chart));
  for (const i of [0, 8, 18, 22])
    // The patch edge cuts dots: 1 % of the area.
    expect(screened[i].linear[0] / solid[i].linear[0]).toBeCloseTo(0.75, 2);
});

test("clipping is counted at 252 and at 2 of 255, also in 16 bit", async () => {
  for (const bitDepth of [8, 16] as const) {
    const chart = await renderChart({ ...base, bitDepth, noise: 0, gains: [1.4, 1.4, 1.4] });
    const samples = samplePatches(chart.raster, card, asPlaced(chart));
    expect(samples[18].clippedHigh).toBe(1);
    expect(samples[21].clippedHigh).toBe(0);
    // Cyan lies outside the red of sRGB: its red is 0.
    expect(samples[17].clippedLow).toBe(1);
    expect(samples[21].clippedLow).toBe(0);
  }
});

test("a small patch still has its pixels; one outside the frame has none and no value", async () => {
  const chart = await renderChart({ ...base, pitch: 8, noise: 0 });
  for (const { pixels, linear } of samplePatches(chart.raster, card, asPlaced(chart))) {
    expect(pixels).toBeGreaterThanOrEqual(4);
    expect(linear.every(Number.isFinite)).toBe(true);
  }
  const centres = chart.centres.map(([x, y]) => [x - 320 + 8, y] as const);
  const outside = samplePatches(chart.raster, card, { ...asPlaced(chart), centres });
  expect(outside[0].pixels).toBe(0);
  expect(outside[0].linear[0]).toBeNaN();
});
