import type { Point } from "../../src/numeric/point.ts";
import { createHash } from "node:crypto";
import { beforeAll, describe, expect, test } from "vitest";
import { CARD_REFLECTANCES } from "../../sample-images/scene/cardFace.ts";
import { framePixels } from "../../sample-images/scene/frame.ts";
import { framePainter } from "../../sample-images/scene/paintFrame.ts";
import type { FrameScene } from "../../sample-images/scene/paintFrame.ts";
import type { PairOptions } from "../../sample-images/scene/pairOptions.ts";
import { pairScenes } from "../../sample-images/scene/pairScenes.ts";
import type { PairScenes } from "../../sample-images/scene/pairScenes.ts";
import type { PairTruth } from "../../sample-images/scene/pairTruth.ts";
import { renderCardAlone, renderPair } from "../../sample-images/scene/renderPair.ts";
import { standardObserver } from "../../sample-images/scene/scanner.ts";
import { ciede2000 } from "../../src/colour/ciede2000.ts";
import { xyzD50ToLab } from "../../src/colour/lab.ts";
import { reflectanceToXyzD50 } from "../../src/colour/spectrum.ts";
import type { Triple } from "../../src/numeric/triple.ts";
import type { Raster } from "../../src/raster/raster.ts";

/** Half the size of the samples: a quarter of the time. */
const SMALL: Partial<PairOptions> = {
  widthMm: 86,
  heightMm: 126,
  dpiBefore: 120,
  dpiAfter: 120,
};

interface Picture {
  readonly width: number;
  readonly height: number;
  readonly xyz: Float32Array;
}

/** The frame as the standard observer sees it: no scanner, no noise, no blur. */
function ideal(scene: FrameScene): Picture {
  const [width, height] = framePixels(scene);
  const xyz = new Float32Array(3 * width * height);
  const paint = framePainter(scene, standardObserver);
  for (let y = 0; y < height; y++) paint(y, xyz.subarray(3 * width * y, 3 * width * (y + 1)));
  return { width, height, xyz };
}

/** Pixels of a region at least 1 mm from anything else. */
function core(truth: PairTruth, label: number): (x: number, y: number) => boolean {
  return (x, y) => truth.coreAt(x, y) === label;
}

function meanLab(picture: Picture, inside: (x: number, y: number) => boolean): Triple {
  const sum = [0, 0, 0];
  let count = 0;
  for (let y = 0; y < picture.height; y++)
    for (let x = 0; x < picture.width; x++)
      if (inside(x, y)) {
        count++;
        for (let c = 0; c < 3; c++) sum[c] += picture.xyz[3 * (y * picture.width + x) + c];
      }
  return xyzD50ToLab([sum[0] / count, sum[1] / count, sum[2] / count]);
}

const hash = (raster: Raster): string =>
  createHash("sha256").update(new Uint8Array(raster.data.buffer)).digest("hex");

describe("a flat pair on the same spot", () => {
  // The after sheet lies exactly as the before sheet, so that one mask serves both pictures.
  const still: Partial<PairOptions> = {
    ...SMALL,
    rotationBeforeDegrees: 0,
    rotationAfterDegrees: 0,
    scaleX: 1,
    scaleY: 1,
    shiftMm: [0, 0],
    cockleMm: 0,
    dpiBefore: 120,
    dpiAfter: 120,
    // Chance is left out, so that the tolerance can be tight.
    grain: 0,
    mottle: 0,
    worn: false,
  };
  let scenes: PairScenes;
  let before: Picture;
  let after: Picture;
  beforeAll(() => {
    scenes = pairScenes(still);
    before = ideal(scenes.before);
    after = ideal(scenes.after);
  });

  test("every region's mean is what the truth says, before and after", () => {
    const { truth } = scenes;
    expect(truth.inks.map((ink) => ink.id)).toEqual([
      "red",
      "yellow",
      "blue",
      "light-blue",
      "orange",
      "green",
      "violet-brown",
      "black",
    ]);
    for (const ink of truth.inks) {
      const inside = core(truth, ink.label);
      const told = truth.over(inside);
      // What is left: areas of 100 mm2 hold a whole number of screen cells only roughly. A wrong state is out by 1 and more.
      expect(ciede2000(told.labBefore, meanLab(before, inside)), ink.id).toBeLessThan(0.05);
      expect(ciede2000(told.labAfter, meanLab(after, inside)), ink.id).toBeLessThan(0.05);
    }
  });

  test("the parts of a change are those of the scene", () => {
    const byId = Object.fromEntries(scenes.truth.inks.map((ink) => [ink.id, ink]));
    expect(byId.black.inkPartDeltaE00).toBeCloseTo(0, 9);
    expect(byId.red.inkPartDeltaE00).toBeGreaterThan(1);
    expect(byId.red.inkPartDeltaE00).toBeGreaterThan(2 * byId.blue.inkPartDeltaE00);
    for (const ink of scenes.truth.inks) expect(ink.paperPartDeltaE00).toBeGreaterThan(0.3);
  });

  test("another resolution shows the same colours", () => {
    const coarse = pairScenes({ ...still, dpiBefore: 80 });
    const picture = ideal(coarse.before);
    for (const ink of scenes.truth.inks) {
      const fine = meanLab(before, core(scenes.truth, ink.label));
      const rough = meanLab(picture, core(coarse.truth, ink.label));
      // Both are within 0.05 of the truth.
      expect(ciede2000(fine, rough), ink.id).toBeLessThan(0.1);
    }
  });

  test("nothing washed, nothing changed: the same truth twice", () => {
    const { truth } = pairScenes({
      ...still,
      yellowingRemoved: 0,
      soilRemoved: 0,
      inkLoss: { yellow: 0, red: 0, blue: 0, black: 0 },
    });
    for (const area of [...truth.inks, truth.paper]) expect(area.deltaE00).toBe(0);
  });

  test("the card's patches have the colours of their spectra, where the corners say", () => {
    const corners = scenes.truth.cardCornersBefore;
    expect(corners).not.toBeNull();
    for (const [corner, patch] of [0, 5, 23, 18].entries()) {
      const [x, y] = corners?.[corner] ?? [NaN, NaN];
      const at = 3 * (Math.round(y) * before.width + Math.round(x));
      const seen = xyzD50ToLab([before.xyz[at], before.xyz[at + 1], before.xyz[at + 2]]);
      const known = xyzD50ToLab(reflectanceToXyzD50(CARD_REFLECTANCES[patch]));
      // Single precision of the picture.
      expect(ciede2000(seen, known)).toBeLessThan(1e-3);
    }
  });
});

describe.each([
  ["as usual", { cockleMm: 1 }],
  ["turned on its side", { rotationAfterDegrees: 91.5, cockleMm: 1.5, shortestWaveMm: 55 }],
  ["at another resolution", { dpiAfter: 160, rotationAfterDegrees: 178.6 }],
] as const)("the map, after sheet %s", (_, placed) => {
  test("there and back is where it was", () => {
    const { truth } = pairScenes({ ...SMALL, ...placed });
    for (const [x, y] of [
      [60, 70],
      [300, 420],
      [471.5, 700.25],
    ]) {
      const [u, v] = truth.mapAfterToBeforePixels(...truth.mapBeforeToAfterPixels(x, y));
      expect(Math.hypot(u - x, v - y)).toBeLessThan(1e-7);
    }
  });

  test("pictures agree best exactly at the mapped place", () => {
    const scenes = pairScenes({
      ...SMALL,
      ...placed,
      yellowingRemoved: 0,
      soilRemoved: 0,
      inkLoss: { yellow: 0, red: 0, blue: 0, black: 0 },
    });
    const { truth } = scenes;
    const before = ideal(scenes.before);
    const after = ideal(scenes.after);
    const luminance = (picture: Picture, x: number, y: number): number => {
      const column = Math.floor(x);
      const row = Math.floor(y);
      const at = (c: number, r: number): number => picture.xyz[3 * (r * picture.width + c) + 1];
      const top = at(column, row) + (at(column + 1, row) - at(column, row)) * (x - column);
      const foot =
        at(column, row + 1) + (at(column + 1, row + 1) - at(column, row + 1)) * (x - column);
      return top + (foot - top) * (y - row);
    };
    // Mean over 3 x 3 pixels tames the screen, whose dots the two grids cut differently.
    const smooth = (picture: Picture, x: number, y: number, step: number): number => {
      let sum = 0;
      for (let j = -1; j <= 1; j++)
        for (let i = -1; i <= 1; i++) sum += luminance(picture, x + i * step, y + j * step);
      return sum / 9;
    };
    const zoom = scenes.after.dpi / scenes.before.dpi;
    const misfit = (dx: number, dy: number): number => {
      let sum = 0;
      for (let y = 20; y < before.height - 20; y += 4)
        for (let x = 20; x < before.width - 20; x += 4) {
          if (!truth.onSheet(x, y, 4)) continue;
          const [u, v] = truth.mapBeforeToAfterPixels(x, y);
          sum += (smooth(before, x, y, 1) - smooth(after, u + dx, v + dy, zoom)) ** 2;
        }
      return sum;
    };
    const d = 0.5 * zoom;
    const here = misfit(0, 0);
    const [left, right, up, down] = [misfit(-d, 0), misfit(d, 0), misfit(0, -d), misfit(0, d)];
    // The vertex of the parabola through three misfits is the error of the map, in steps of d.
    const vertex = (minus: number, plus: number): number =>
      (0.5 * (minus - plus)) / (minus + plus - 2 * here);
    expect(Math.abs(vertex(left, right))).toBeLessThan(0.05);
    expect(Math.abs(vertex(up, down))).toBeLessThan(0.05);
    for (const moved of [left, right, up, down]) expect(moved).toBeGreaterThan(2 * here);
  });
});

describe("scans", () => {
  // Every dot of the screen is looked at whatever the resolution, so only a smaller sheet is faster.
  const coarse: Partial<PairOptions> = { widthMm: 43, heightMm: 63, dpiBefore: 60, dpiAfter: 60 };

  test("the same options give the same bytes, another seed others", () => {
    const one = renderPair(coarse);
    const two = renderPair(coarse);
    expect(hash(two.before)).toBe(hash(one.before));
    expect(hash(two.after)).toBe(hash(one.after));
    expect(two.truth.inks).toEqual(one.truth.inks);
    expect(hash(renderPair({ ...coarse, seed: 2 }).before)).not.toBe(hash(one.before));
  });

  test("sizes follow mm and dpi; 16 bit uses all its codes", () => {
    const { before, after, truth } = renderPair({ ...coarse, dpiAfter: 100, bitDepth: 16 });
    const [corner, , opposite] = truth.sheetCornersBefore;
    expect(Math.hypot(opposite[0] - corner[0], opposite[1] - corner[1])).toBeCloseTo(
      (Math.hypot(43, 63) * 60) / 25.4,
      6,
    );
    for (const raster of [before, after]) {
      expect(raster.bitDepth).toBe(16);
      expect(raster.data).toBeInstanceOf(Uint16Array);
      expect(raster.data.length).toBe(3 * raster.width * raster.height);
    }
    expect(before.data.some((code) => code % 257 !== 0)).toBe(true);
    expect(after.width / before.width).toBeGreaterThan(1.5);
  });

  test("a blank, a mirrored and another cover are what they say", () => {
    const spread = (raster: Raster): number => {
      let low = 255;
      let high = 0;
      // The upper half of the frame holds no card.
      for (let i = 0; i < raster.data.length / 2; i++) {
        low = Math.min(low, raster.data[i]);
        high = Math.max(high, raster.data[i]);
      }
      return high - low;
    };
    const same = renderPair(coarse);
    const blank = renderPair({ ...coarse, afterShows: "blank" });
    expect(spread(blank.after)).toBeLessThan(0.7 * spread(same.after));
    for (const afterShows of ["mirrored", "other"] as const) {
      const pair = renderPair({ ...coarse, afterShows });
      expect(hash(pair.before)).toBe(hash(same.before));
      expect(hash(pair.after)).not.toBe(hash(same.after));
      expect(pair.after.width).toBe(same.after.width);
    }
  });

  test("the card alone shares the scan's drift: its white has the same code", () => {
    const pair = renderPair({ ...coarse, noise: 0, unevenness: 0, drift: 0.02 });
    const card = renderCardAlone("before", { ...coarse, noise: 0, unevenness: 0, drift: 0.02 });
    const code = (raster: Raster, [x, y]: Point): number =>
      raster.data[3 * (Math.round(y) * raster.width + Math.round(x)) + 1];
    const inPair = code(pair.before, pair.truth.cardCornersBefore?.[3] ?? [NaN, NaN]);
    // The tilt of the lamp differs with the place in the frame: up to s across it.
    expect(Math.abs(code(card.raster, card.corners[3]) - inPair)).toBeLessThan(4);
    expect(inPair).toBeGreaterThan(215);
    expect(inPair).toBeLessThan(252);
  });
});

describe("damage", () => {
  test("tide line, bleed, uneven cleaning and dull blacks show in the truth where they were put", () => {
    const plain = pairScenes(SMALL).truth;
    const { truth } = pairScenes({
      ...SMALL,
      tideLine: { yMm: 90, widthMm: 1.5, strength: 0.9 },
      bleed: { ink: "red", reachMm: 2, boxMm: [0, 0, 86, 30] },
      unevenCleaning: 0.8,
      dullBlack: 0.1,
    });
    const black = truth.inks.find((ink) => ink.id === "black");
    const blackBefore = plain.inks.find((ink) => ink.id === "black");
    expect(black?.labAfter[0]).toBeGreaterThan((blackBefore?.labAfter[0] ?? NaN) + 2);
    // Cleaned in part, the paper gains less.
    expect(truth.paper.deltaE00).toBeLessThan(plain.paper.deltaE00 - 0.3);
    const strip = (x: number, y: number): boolean => {
      const near = [0.6, 1.2].map((mm) => (mm * 120) / 25.4);
      return truth.labelAt(x, y) === 255 && near.some((d) => truth.labelAt(x, y + d) === 1);
    };
    const bled = truth.over(strip, 0.2);
    const sound = plain.over(strip, 0.2);
    expect(bled.areaCm2).toBeGreaterThan(0.3);
    expect(bled.labAfter[1]).toBeGreaterThan(sound.labAfter[1] + 3);
    expect(bled.labBefore).toEqual(sound.labBefore);
  });
});
