import type { JarReading } from "../../src/jar/jarReading.ts";
import type { JarPhoto } from "../../src/jar/optics/linearPhoto.ts";
import { beforeAll, describe, expect, test } from "vitest";
import type { Camera, Light } from "../../sample-images/jar/camera.ts";
import { type Dye, type Liquid, PARTICLES } from "../../sample-images/jar/liquids.ts";
import { sigmoid, smoothStep } from "../../sample-images/jar/toneCurves.ts";
import type { Triple } from "../../src/numeric/triple.ts";
import { measureJar } from "../support/measureJar.ts";
import { measureSeries } from "../../src/jar/measureSeries.ts";
import type { Station } from "../../src/jar/place/station.ts";
import { FLAT_JAR, PIXELS_PER_MM, shot, STATION, trueAbsorbance } from "../support/jarScene.ts";

/**
 * Limits asked of the reading (no source): absolute per cm plus a share of the truth.
 * Truth comes from the forward model of the samples, which shares no code with the reader.
 */
const PLAIN = { constant: 0.004, share: 0.06 };
const PHONE = { constant: 0.008, share: 0.12 };

function expectWithin(
  reading: JarReading,
  truth: Triple,
  { constant, share }: { constant: number; share: number },
): void {
  truth.forEach((value, c) =>
    expect(
      Math.abs(reading.absorbancePerCm[c] - value),
      `band ${"rgb"[c]}: ${reading.absorbancePerCm[c].toFixed(4)} for ${value.toFixed(4)}`,
    ).toBeLessThanOrEqual(constant + share * Math.abs(value)),
  );
}

const codes = (reading: JarReading): string[] => reading.warnings.map((warning) => warning.code);

let blank: JarPhoto;
beforeAll(async () => {
  blank = await shot();
});

/** Soil and a red: what a first bath looks like. */
const BATH: Liquid = { soil: 0.1, dyes: { red: 0.05 } };

describe("a clear liquid", () => {
  test("fresh against fresh is nothing: within 0.002 per cm, and said to be so", async () => {
    const reading = measureJar(await shot({ exposure: { seed: 2 } }), blank, STATION);
    for (const A of reading.absorbancePerCm) expect(Math.abs(A)).toBeLessThanOrEqual(0.002);
    expect(Math.abs(reading.turbidityIndexPerCm)).toBeLessThan(0.0005);
    expect(codes(reading)).toEqual(["below-range"]);
    expect(reading.warnings[0].message).toContain("not distinguishable from fresh bath");
  });

  /** Another exposure, white balance, light: each with fresh and with spent bath. */
  const CHANGES: readonly [string, Parameters<typeof shot>[0]][] = [
    ["exposure x 0.7", { exposure: { seed: 3, white: 0.57 } }],
    [
      "white balance +12 % red, -12 % blue",
      { exposure: { seed: 3, whiteBalance: [1.12, 1, 0.88] } },
    ],
    [
      "white balance -12 % red, +12 % blue",
      { exposure: { seed: 3, whiteBalance: [0.88, 1, 1.12] } },
    ],
    ["light gradient moved by 10 % across", { gradient: [0.1, 0] }],
    ["light gradient moved by 10 % down", { gradient: [0, -0.1] }],
  ];
  test.each(CHANGES)("%s changes nothing", async (_, change) => {
    const [fresh, spent] = measureSeries(
      [await shot(change), await shot({ ...change, liquid: BATH })],
      blank,
      STATION,
    );
    expectWithin(fresh, [0, 0, 0], PLAIN);
    expectWithin(spent, trueAbsorbance(BATH), PLAIN);
  });

  /** Optical depth of the strongest band through 5 cm from 0.05 to 1, each dye and soil in another camera and light. */
  const LIQUIDS: readonly [Camera, Light, readonly Liquid[]][] = [
    ["one", "daylight", [dye("red", 0.02), dye("red", 0.1), dye("red", 0.4)]],
    ["two", "led", [dye("blue", 0.02), dye("blue", 0.1), dye("blue", 0.14)]],
    ["three", "lamp", [{ soil: 0.02 }, { soil: 0.1 }, { soil: 0.25 }]],
    ["two", "daylight", [dye("yellow", 0.04), dye("yellow", 0.15), dye("violet", 0.1)]],
    ["three", "daylight", [dye("pink", 0.05), { soil: 0.05, soilSlopePerNm: 0.01 }, BATH]],
  ];
  test.each(LIQUIDS)("camera %s, %s light: dyes and soil", async (camera, light, liquids) => {
    const scene = { camera, light };
    const fresh = await shot(scene);
    const photos = await Promise.all(
      liquids.map((liquid, i) => shot({ ...scene, liquid, exposure: { seed: 10 + i } })),
    );
    measureSeries(photos, fresh, STATION).forEach((reading, i) => {
      expectWithin(reading, trueAbsorbance(liquids[i], scene), PLAIN);
      expect(codes(reading)).toEqual([]);
      // 2 FNU of formazin have an index of 0.0018: a clear dye must stay below.
      expect(Math.abs(reading.turbidityIndexPerCm)).toBeLessThan(0.0018);
    });
  });

  test("the stated uncertainty covers the error", async () => {
    const liquids: Liquid[] = [BATH, dye("red", 0.1), { soil: 0.03 }];
    const photos = await Promise.all(liquids.map((liquid) => shot({ liquid })));
    measureSeries(photos, blank, STATION).forEach((reading, i) =>
      trueAbsorbance(liquids[i]).forEach((truth, c) =>
        expect(Math.abs(reading.absorbancePerCm[c] - truth)).toBeLessThan(
          2 * reading.absorbanceSigma[c],
        ),
      ),
    );
  });
});

function dye(name: Dye, amount: number): Liquid {
  return { dyes: { [name]: amount } };
}

describe("a phone", () => {
  /** Tone curves of other families than the fit's own; JPEG 80. */
  const CURVES = [
    ["smooth step", smoothStep(0.47)],
    ["sigmoid", sigmoid(3.5)],
  ] as const;
  test.each(CURVES)("%s tone curve and JPEG 80", async (_, tone) => {
    const fresh = await shot({ exposure: { tone }, jpegQuality: 80 });
    const liquids: Liquid[] = [{}, { soil: 0.03 }, BATH, dye("blue", 0.1), dye("red", 0.2)];
    const photos = await Promise.all(
      liquids.map((liquid, i) =>
        shot({ liquid, exposure: { tone, seed: 20 + i }, jpegQuality: 80 }),
      ),
    );
    const readings = measureSeries(photos, fresh, STATION);
    for (const A of readings[0].absorbancePerCm) expect(Math.abs(A)).toBeLessThanOrEqual(0.004);
    readings.forEach((reading, i) => {
      expectWithin(reading, trueAbsorbance(liquids[i]), PHONE);
      expect(reading.tone.kind).toBe("fitted");
    });
  });

  test("without a card it says that the tone curve is taken on trust", async () => {
    const bare = { ...(await shot({ liquid: BATH })), greys: [] };
    expect(codes(measureJar(bare, blank, STATION))).toContain("no-card");
  });
});

describe("other jars", () => {
  test("two passes count twice", async () => {
    const jar = { ...FLAT_JAR, passes: 2 } as const;
    const station: Station = { ...STATION, passes: 2 };
    const liquid = { soil: 0.06, dyes: { red: 0.02 } };
    const reading = measureJar(await shot({ jar, liquid }), await shot({ jar }), station);
    expectWithin(reading, trueAbsorbance(liquid, { passes: 2 }), PLAIN);
    expect(reading.pathCm).toBe(10);
  });

  test("a round jar is read in its middle, path 0.97 of the inner diameter", async () => {
    const jar = { ...FLAT_JAR, shape: "round", insideCm: 6.5 } as const;
    const station: Station = { ...STATION, jar: "round", pathCm: 6.5 };
    const reading = measureJar(await shot({ jar, liquid: BATH }), await shot({ jar }), station);
    expectWithin(reading, trueAbsorbance(BATH, { pathCm: 6.3 }), PLAIN);
  });

  test("through the liquid the backing looks larger: the stripes are found where refraction puts them", async () => {
    const jar = { ...FLAT_JAR, magnification: 1.05 };
    const reading = measureJar(await shot({ jar, liquid: BATH }), await shot({ jar }), STATION);
    expectWithin(reading, trueAbsorbance(BATH), PLAIN);
  });
});

describe("the station", () => {
  const [S] = [PIXELS_PER_MM];
  const turned = (degrees: number): Parameters<typeof shot>[0] => {
    const a = (degrees * Math.PI) / 180;
    const [c, s] = [S * Math.cos(a), S * Math.sin(a)];
    return { toPixels: [c, -s, 480 - c * 80 + s * 47, s, c, 282 - s * 80 - c * 47, 0, 0, 1] };
  };

  /** Up to 0.12 of a narrow period (2.16 pixels here) the stripes are found again; then the figure must be as good as ever. */
  const SMALL: readonly [string, Parameters<typeof shot>[0]][] = [
    ["1 pixel down", { toPixels: [S, 0, 0, 0, S, 1, 0, 0, 1] }],
    ["1.8 pixels up", { toPixels: [S, 0, 0, 0, S, -1.8, 0, 0, 1] }],
    ["1 mm to the right", { toPixels: [S, 0, S, 0, S, 0, 0, 0, 1] }],
    ["turned by 0.2 degrees", turned(0.2)],
    ["0.4 % nearer", { toPixels: [1.004 * S, 0, -2, 0, 1.004 * S, -1, 0, 0, 1] }],
  ];
  test.each(SMALL)("%s: found again", async (_, move) => {
    expectWithin(
      measureJar(await shot({ ...move, liquid: BATH }), blank, STATION),
      trueAbsorbance(BATH),
      PLAIN,
    );
  });

  const LARGE: readonly [string, Parameters<typeof shot>[0]][] = [
    ["0.5 mm down", { toPixels: [S, 0, 0, 0, S, 0.5 * S, 0, 0, 1] }],
    ["3 mm up, a narrow period", { toPixels: [S, 0, 0, 0, S, -3 * S, 0, 0, 1] }],
    ["10 mm down, a wide period", { toPixels: [S, 0, 0, 0, S, 10 * S, 0, 0, 1] }],
    ["3 mm to the right", { toPixels: [S, 0, 3 * S, 0, S, 0, 0, 0, 1] }],
    ["jar alone 4 mm to the left", { jar: { ...FLAT_JAR, leftMm: 41, rightMm: 111 } }],
    ["turned by 1 degree", turned(1)],
    ["4 % nearer", { toPixels: [1.04 * S, 0, -19, 0, 1.04 * S, -11, 0, 0, 1] }],
  ];
  test.each(LARGE)("%s: refused as moved, never a number", async (_, move) => {
    const photo = await shot({ ...move, liquid: BATH });
    expect(() => measureJar(photo, blank, STATION)).toThrow(
      expect.objectContaining({ code: "station-moved" }) as Error,
    );
  });

  test("a blank that stands elsewhere than the station file says is refused too", async () => {
    const elsewhere = await shot({ toPixels: [S, 0, 0, 0, S, S, 0, 0, 1] });
    expect(() => measureJar(elsewhere, elsewhere, STATION)).toThrow(
      expect.objectContaining({ code: "station-moved" }) as Error,
    );
  });

  test("a file that gives the middle of the first white stripe for its edge is understood", async () => {
    const { wide, narrow } = STATION.stripes;
    const station: Station = {
      ...STATION,
      stripes: {
        ...STATION.stripes,
        wide: { ...wide, firstWhiteY: wide.firstWhiteY + 15 },
        narrow: narrow && { ...narrow, firstWhiteY: narrow.firstWhiteY + 4.5 },
      },
    };
    const reading = measureJar(await shot({ liquid: BATH }), blank, station);
    expectWithin(reading, trueAbsorbance(BATH), PLAIN);
  });

  test("a photo of another size is refused", () => {
    const { raster } = blank;
    const cut = { ...raster, height: 560, data: raster.data.subarray(0, 3 * 560 * raster.width) };
    expect(() => measureJar({ ...blank, raster: cut }, blank, STATION)).toThrow(
      expect.objectContaining({ code: "station-moved" }) as Error,
    );
  });

  test("blank and bath swapped are refused, in every camera's exposure", async () => {
    const bath = await shot({ liquid: BATH, exposure: { seed: 5 } });
    expect(() => measureJar(blank, bath, STATION)).toThrow(
      expect.objectContaining({ code: "blank-darker", exitStatus: 4 }) as Error,
    );
  });

  test("a blank of another tint that the bath outweighs is no swap; a blank that is only hazy is refused against a clear bath", async () => {
    const tinted = await shot({ liquid: { dyes: { yellow: 0.01 } } });
    const red = await shot({ liquid: { dyes: { red: 0.05 } }, exposure: { seed: 6 } });
    expect(measureJar(red, tinted, STATION).absorbancePerCm[1]).toBeGreaterThan(0.02);
    const hazy = await shot({ liquid: { fnu: 40 }, exposure: { seed: 7 } });
    expect(() => measureJar(blank, hazy, STATION)).toThrow(/haze in the blank/);
  });

  test("boxes off the stripes or off the photo are no station", () => {
    const stripes = STATION.stripes;
    for (const besideLeft of [
      [2, 2, 200, 60],
      [-50, 90, 100, 240],
      [900, 90, 400, 240],
    ] as const)
      expect(() =>
        measureJar(blank, blank, { ...STATION, stripes: { ...stripes, besideLeft } }),
      ).toThrow(expect.objectContaining({ code: "station-not-found" }) as Error);
  });
});

describe("exposure and range", () => {
  test("clipped white stripes are refused, in the bath's photo and in the blank", async () => {
    const clipped = await shot({ liquid: BATH, exposure: { white: 1.3 } });
    for (const pair of [[clipped, blank] as const, [blank, clipped] as const])
      expect(() => measureJar(pair[0], pair[1], STATION)).toThrow(
        expect.objectContaining({ code: "overexposed" }) as Error,
      );
  });

  test("one clipped channel is enough", async () => {
    const clipped = await shot({ exposure: { white: 1.05, whiteBalance: [1.25, 1, 1] } });
    expect(() => measureJar(clipped, blank, STATION)).toThrow(
      expect.objectContaining({ code: "overexposed" }) as Error,
    );
  });

  test("a dark photo is warned of and still read", async () => {
    const reading = measureJar(
      await shot({ liquid: BATH, exposure: { white: 0.17 } }),
      blank,
      STATION,
    );
    expect(codes(reading)).toContain("too-dark");
    expectWithin(reading, trueAbsorbance(BATH), PHONE);
  });

  test("too much colour for this jar is saturated", async () => {
    for (const liquid of [{ soil: 0.45 }, dye("blue", 0.7)]) {
      const reading = measureJar(await shot({ liquid }), blank, STATION);
      expect(codes(reading)).toContain("saturated");
    }
  });

  test("up to saturation the figure holds, past it the warning stands", async () => {
    // A cyan-blue dye leaves the gamut of the photo's red channel somewhere between these.
    const amounts = [0.12, 0.15, 0.17, 0.2, 0.3];
    const photos = await Promise.all(
      amounts.map((amount) => shot({ liquid: dye("blue", amount) })),
    );
    const readings = measureSeries(photos, blank, STATION);
    readings.forEach((reading, i) => {
      if (!codes(reading).includes("saturated"))
        expectWithin(reading, trueAbsorbance(dye("blue", amounts[i])), PLAIN);
    });
    expect(codes(readings[0])).not.toContain("saturated");
    expect(codes(readings[4])).toContain("saturated");
  });

  test("liquid that is lower than in the blank, or foam on it, is warned of", async () => {
    const jar = { ...FLAT_JAR, levelMm: 24 };
    const reading = measureJar(await shot({ jar, liquid: BATH }), blank, STATION);
    expect(codes(reading)).toContain("not-settled");
  });
});

describe("particles", () => {
  test("formazin-like: the absorbance keeps to a third of the scattering part, and turbidity is warned of", async () => {
    const liquid = { fnu: 20 };
    const reading = measureJar(await shot({ liquid }), blank, STATION);
    expect(codes(reading)).toContain("turbid");
    reading.absorbancePerCm.forEach((A, c) =>
      expect(Math.abs(A)).toBeLessThan(0.004 + 0.35 * reading.attenuationWidePerCm[c]),
    );
    // Narrow stripes lose all scattered light: 20 FNU of formazin are 0.040 per cm (flow-analysis tutorial), here within 10 %.
    expect(Math.abs(reading.attenuationNarrowPerCm[1] - 0.04)).toBeLessThan(0.004);
    expect(reading.attenuationNarrowPerCm[1]).toBeGreaterThan(reading.attenuationWidePerCm[1]);
  });

  test.each(["formazin", "silt", "carbonate"] as const)("%s with soil", async (name) => {
    const liquid: Liquid = { soil: 0.1, fnu: 8, particles: PARTICLES[name] };
    const reading = measureJar(await shot({ liquid }), blank, STATION);
    trueAbsorbance(liquid).forEach((truth, c) => {
      const scattering = reading.attenuationWidePerCm[c] - truth;
      expect(Math.abs(reading.absorbancePerCm[c] - truth)).toBeLessThan(
        0.004 + 0.06 * truth + 0.35 * scattering,
      );
    });
  });

  test("past the range it is more than", async () => {
    const reading = measureJar(await shot({ liquid: { fnu: 110 } }), blank, STATION);
    expect(reading.turbidityBeyondRange).toBe(true);
    expect(codes(reading)).toContain("above-range");
    const inRange = measureJar(await shot({ liquid: { fnu: 40 } }), blank, STATION);
    expect(inRange.turbidityBeyondRange).toBe(false);
  });
});

test("the same photos give the same figures, alone or in a series", async () => {
  const photos = [await shot({ liquid: BATH }), await shot({ liquid: { soil: 0.02 } })];
  const series = measureSeries(photos, blank, STATION);
  expect(series).toEqual(photos.map((photo) => measureJar(photo, blank, STATION)));
});
