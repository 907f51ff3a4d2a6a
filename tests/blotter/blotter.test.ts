import type { Point } from "../../src/numeric/point.ts";
import { describe, expect, test } from "vitest";
import type { Spectrum } from "../../sample-images/jar/bands.ts";
import { throughJpeg } from "../../sample-images/jar/exposed.ts";
import { DYES } from "../../sample-images/jar/liquids.ts";
import {
  type BlotterScene,
  renderBlotterPhoto,
  wetReflectance,
} from "../../sample-images/jar/renderBlotterPhoto.ts";
import { smoothStep } from "../../sample-images/jar/toneCurves.ts";
import { chooseCorrection } from "../../src/calibrate/chooseCorrection.ts";
import type { Correction } from "../../src/calibrate/correction.ts";
import { placeCard } from "../../src/card/placeCard.ts";
import { samplePatches } from "../../src/card/samplePatches.ts";
import { xyzD50ToLab } from "../../src/colour/lab.ts";
import { reflectanceToXyzD50 } from "../../src/colour/spectrum.ts";
import type { Triple } from "../../src/numeric/triple.ts";
import { gradeBlotterSpot } from "../../src/blotter/gradeBlotterSpot.ts";
import { measureBlotter } from "../../src/blotter/measureBlotter.ts";
import type { Raster } from "../../src/raster/raster.ts";
import { CHART } from "../support/jarScene.ts";

describe("grade", () => {
  /** Stains and ratings of ISO 105-A04 worked from the formula outside this program; verdicts are this tool's. */
  const CASES: readonly [Triple, string, string][] = [
    [[93, 0, 2], "5", "fast"],
    [[91, 1, 3], "4-5", "fast"],
    [[89.5, 1, 3], "4", "doubtful"],
    [[88, 6, 4], "3-4", "bleeds"],
    [[82, 14, 6], "2-3", "bleeds"],
    [[70, 25, 10], "1-2", "bleeds"],
  ];
  test.each(CASES)("%j beside a white of 94, 0, 2: %s, %s", (stain, grade, verdict) => {
    expect(gradeBlotterSpot([94, 0, 2], stain)).toMatchObject({
      stainingGrade: grade,
      verdict,
    });
  });

  test("no difference is fast, with nothing on any channel", () => {
    const same = gradeBlotterSpot([80, 1, 5], [80, 1, 5]);
    expect(same).toMatchObject({ deltaE: 0, deltaE00: 0, stainingRating: 5, verdict: "fast" });
    for (const A of same.absorbance) expect(Math.abs(A)).toBeLessThan(1e-12);
  });

  test("a grey stain is alike in all channels: half the light is 0.301", () => {
    // L* of Y 0.64 and 0.32.
    const L = (Y: number): number => 116 * Math.cbrt(Y) - 16;
    for (const A of gradeBlotterSpot([L(0.64), 0, 0], [L(0.32), 0, 0]).absorbance)
      expect(A).toBeCloseTo(0.30103, 4);
  });

  test("a missing colour has no grade", () => {
    expect(() => gradeBlotterSpot([94, 0, 2], [NaN, 0, 0])).toThrow(RangeError);
  });
});

const NOTHING: Spectrum = DYES.red.map(() => 0);
const FIRST: Point = [600, 200];
const PITCH = 40;

function scene(density: Spectrum, extra: Partial<BlotterScene> = {}): BlotterScene {
  return {
    widthPixels: 880,
    heightPixels: 560,
    blotter: [40, 40, 540, 520],
    spots: [
      { at: [180, 280], radiusPixels: 66, density: NOTHING },
      { at: [400, 270], radiusPixels: 60, density },
    ],
    chart: { first: FIRST, pitchPixels: PITCH },
    gradient: [0.06, 0.04],
    ...extra,
  };
}

const OUTLINE: readonly Point[] = [
  [570, 170],
  [830, 170],
  [830, 350],
  [570, 350],
];

async function photo(of: BlotterScene): Promise<{ raster: Raster; correction: Correction }> {
  const raster = await throughJpeg(renderBlotterPhoto(of), 90);
  const [x, y] = FIRST;
  const placed = placeCard(raster, CHART, [
    [x, y],
    [x + 5 * PITCH, y],
    [x + 5 * PITCH, y + 3 * PITCH],
    [x, y + 3 * PITCH],
  ]);
  const choice = chooseCorrection([{ samples: samplePatches(raster, CHART, placed) }], CHART);
  return { raster, correction: choice.frames[0].correction };
}

function truth(density: Spectrum): ReturnType<typeof gradeBlotterSpot> {
  const lab = (of: Spectrum): Triple => xyzD50ToLab(reflectanceToXyzD50(wetReflectance(of)));
  return gradeBlotterSpot(lab(NOTHING), lab(density));
}

describe("photo", () => {
  const INKS: readonly [string, Spectrum, string][] = [
    ["red that bleeds", DYES.red.map((e) => 0.3 * e), "bleeds"],
    ["violet that bleeds a little", DYES.violet.map((e) => 0.15 * e), "bleeds"],
    ["yellow that is fast", DYES.yellow.map((e) => 0.02 * e), "fast"],
    ["nothing at all", NOTHING, "fast"],
  ];
  test.each(INKS)(
    "%s: both spots found, graded as the spectra say",
    async (_, density, verdict) => {
      const { raster, correction } = await photo(scene(density));
      const reading = measureBlotter(raster, correction, null, OUTLINE, "blotter.jpg");
      const expected = truth(density);
      expect(expected.verdict).toBe(verdict);
      expect(reading.verdict).toBe(verdict);
      // Within a sixth and 0.6: a camera under one light, by a fitted model, is no spectrophotometer.
      expect(Math.abs(reading.deltaE00 - expected.deltaE00)).toBeLessThan(
        0.6 + expected.deltaE00 / 6,
      );
      reading.absorbance.forEach((A, c) =>
        expect(Math.abs(A - expected.absorbance[c])).toBeLessThan(
          0.01 + 0.15 * expected.absorbance[c],
        ),
      );
      expect(reading.spot.sigmaDeltaE00).toBeLessThan(0.5);
    },
  );

  test("a phone's tone curve is taken out by the card", async () => {
    const density = DYES.blue.map((e) => 0.15 * e);
    const { raster, correction } = await photo(
      scene(density, { exposure: { tone: smoothStep(0.4) } }),
    );
    const reading = measureBlotter(raster, correction, null, OUTLINE, "blotter.jpg");
    expect(Math.abs(reading.deltaE00 - truth(density).deltaE00)).toBeLessThan(
      0.6 + truth(density).deltaE00 / 6,
    );
  });

  test("the control is the spot nearer the dry blotter, on whichever side", async () => {
    const density = DYES.red.map((e) => 0.2 * e);
    const [left, right] = scene(density).spots;
    const swapped = scene(density, {
      spots: [
        { ...left, density },
        { ...right, density: NOTHING },
      ],
    });
    const { raster, correction } = await photo(swapped);
    const reading = measureBlotter(raster, correction, null, OUTLINE, "blotter.jpg");
    expect(reading.control.boxPixels[0]).toBeGreaterThan(reading.spot.boxPixels[0]);
    expect(reading.verdict).toBe("bleeds");
  });

  test("boxes given by hand are read as they are", async () => {
    const density = DYES.red.map((e) => 0.3 * e);
    const { raster, correction } = await photo(scene(density, { gradient: [0, 0] }));
    const boxes = { controlBox: [150, 250, 60, 60], spotBox: [375, 245, 50, 50] } as const;
    const reading = measureBlotter(raster, correction, boxes, null, "blotter.jpg");
    expect(Math.abs(reading.deltaE00 - truth(density).deltaE00)).toBeLessThan(
      0.6 + truth(density).deltaE00 / 6,
    );
    for (const spotBox of [
      [850, 245, 50, 50],
      [375, 245, 2, 2],
    ] as const)
      expect(() =>
        measureBlotter(raster, correction, { ...boxes, spotBox }, null, "blotter.jpg"),
      ).toThrow(expect.objectContaining({ code: "wrong-use" }) as Error);
  });

  test("one spot, three spots, or a tiny one beside a large one: refused, not guessed", async () => {
    const [control, spot] = scene(DYES.red.map((e) => 0.2 * e)).spots;
    const { correction } = await photo(scene(NOTHING));
    for (const spots of [
      [],
      [control],
      [control, spot, { ...spot, at: [290, 440] as [number, number], radiusPixels: 50 }],
      [control, { ...spot, radiusPixels: 22 }],
    ]) {
      const raster = renderBlotterPhoto(scene(NOTHING, { spots }));
      expect(() => measureBlotter(raster, correction, null, OUTLINE, "blotter.jpg")).toThrow(
        expect.objectContaining({ code: "spots-not-found" }) as Error,
      );
    }
  });
});
