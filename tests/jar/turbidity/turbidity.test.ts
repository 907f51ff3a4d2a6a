import type { JarPhoto } from "../../../src/jar/optics/linearPhoto.ts";
import { beforeAll, describe, expect, test } from "vitest";
import { fnuOf } from "../../../src/jar/turbidity/fnuOf.ts";
import { measureSeries } from "../../../src/jar/measureSeries.ts";
import { strengthOf } from "../../../src/jar/turbidity/strengthOf.ts";
import { tieFromPhotos } from "../../../src/jar/tieFromPhotos.ts";
import { tieTurbidity } from "../../../src/jar/turbidity/tieTurbidity.ts";
import { shot, STATION, FLAT_JAR } from "../../support/jarScene.ts";
import type { TurbidityTie } from "../../../src/results/jarResult.ts";

/** 2 FNU + 35 % up to 60 FNU: the limit asked of the reading (no source). */
const limit = (fnu: number): number => 2 + 0.35 * fnu;

describe("own dilution series", () => {
  let blank: JarPhoto;
  let tie: TurbidityTie;
  const SERIES = [5, 10, 20, 40, 80];

  beforeAll(async () => {
    blank = await shot();
    const points = await Promise.all(
      SERIES.map(async (fnu) => ({
        photo: await shot({ liquid: { fnu }, exposure: { seed: fnu } }),
        strength: fnu,
      })),
    );
    tie = tieFromPhotos(points, blank, STATION, "FNU");
  });

  test("keeps its residuals, and they are small", () => {
    expect(tie.points.map((point) => point.strength)).toEqual(SERIES);
    for (const { strength, indexPerCm, residual } of tie.points) {
      expect(residual).toBeCloseTo(strengthOf(tie, indexPerCm) - strength, 12);
      expect(Math.abs(residual)).toBeLessThan(1 + 0.1 * strength);
    }
  });

  test("the index is about linear to 60 FNU at 5 cm", () => {
    // Published: 0.00082 to 0.00090 per FNU in another simulation of formazin; ours has a veil of its own, so only its constancy counts.
    const perFnu = tie.points.slice(0, 4).map(({ strength, indexPerCm }) => indexPerCm / strength);
    expect(Math.max(...perFnu) / Math.min(...perFnu)).toBeLessThan(1.25);
  });

  test("reads other strengths within 2 FNU + 35 %, in other light and exposure", async () => {
    const strengths = [0, 3, 15, 30, 60];
    const photos = await Promise.all(
      strengths.map((fnu) =>
        shot({
          liquid: { fnu },
          gradient: [0.08, 0.04],
          exposure: { seed: 40 + fnu, white: 0.65, whiteBalance: [1.08, 1, 0.94] },
        }),
      ),
    );
    measureSeries(photos, blank, STATION, { tie }).forEach((reading, i) => {
      const error = Math.abs((reading.turbidityFnu ?? NaN) - strengths[i]);
      expect(error).toBeLessThanOrEqual(limit(strengths[i]));
      // The stated uncertainty is of the size of the error: three standard deviations cover it.
      expect(error).toBeLessThan(3 * (reading.turbidityFnuSigma ?? NaN));
    });
  });

  test("clear dyes and soil read below 2 FNU", async () => {
    const liquids = [{ dyes: { red: 0.1 } }, { dyes: { blue: 0.1 } }, { soil: 0.2 }];
    const photos = await Promise.all(liquids.map((liquid) => shot({ liquid })));
    for (const reading of measureSeries(photos, blank, STATION, { tie }))
      expect(reading.turbidityFnu).toBeLessThan(2);
  });

  test("coloured and turbid at once keeps to the limit", async () => {
    const photo = await shot({ liquid: { soil: 0.1, dyes: { red: 0.03 }, fnu: 25 } });
    const [reading] = measureSeries([photo], blank, STATION, { tie });
    expect(Math.abs((reading.turbidityFnu ?? NaN) - 25)).toBeLessThanOrEqual(limit(25));
  });

  test("beyond its strongest point it says more than", async () => {
    const photo = await shot({ liquid: { fnu: 60 } });
    const weak = { ...tie, largestIndex: tie.points[2].indexPerCm };
    const [reading] = measureSeries([photo], blank, STATION, { tie: weak });
    expect(reading.turbidityBeyondRange).toBe(true);
  });

  test("a blank that is itself hazy: bath and blank are each read on the series and subtracted, and that is said", async () => {
    const hazyBlank = await shot({ liquid: { fnu: 20 }, exposure: { seed: 61 } });
    const bath = await shot({ liquid: { fnu: 40 }, exposure: { seed: 62 } });
    const [reading] = measureSeries([bath], { ...hazyBlank, file: "old-blank.jpg" }, STATION, {
      tie,
      clear: blank,
    });
    expect(Math.abs((reading.turbidityFnu ?? NaN) - 20)).toBeLessThanOrEqual(limit(20) / 2);
    // Two readings, each with its own error.
    const alone = measureSeries([bath], blank, STATION, { tie })[0].turbidityFnuSigma ?? NaN;
    expect(reading.turbidityFnuSigma).toBeGreaterThan(alone);
    const note = reading.warnings.find(({ message }) => message.includes("old-blank.jpg"));
    expect(note?.message).toMatch(/hazy itself: (1[789]|2[0-3])\.\d FNU.*less/);
  });

  test("a clear blank changes nothing and says nothing", async () => {
    const fresh = await shot({ exposure: { seed: 63 } });
    const bath = await shot({ liquid: { fnu: 30 }, exposure: { seed: 64 } });
    const [reading] = measureSeries([bath], fresh, STATION, { tie, clear: blank });
    expect(Math.abs((reading.turbidityFnu ?? NaN) - 30)).toBeLessThanOrEqual(limit(30) / 2);
    expect(reading.warnings.filter(({ message }) => message.includes("hazy"))).toEqual([]);
  });

  test("where the jar stands elsewhere than in the series' blank there is no FNU, and a note says why", async () => {
    const jar = { ...FLAT_JAR, leftMm: 49, rightMm: 119 };
    const moved = await shot({ jar, exposure: { seed: 65 } });
    const bath = await shot({ jar, liquid: { fnu: 30 }, exposure: { seed: 66 } });
    const [reading] = measureSeries([bath], moved, STATION, { tie, clear: blank });
    expect([reading.turbidityFnu, reading.turbidityFnuSigma]).toEqual([null, null]);
    expect(reading.warnings.map(({ message }) => message).join(" ")).toMatch(/no FNU/);
  });

  test("without it there is no FNU", async () => {
    const [reading] = measureSeries([await shot({ liquid: { fnu: 20 } })], blank, STATION);
    expect(reading.turbidityFnu).toBeNull();
    expect(reading.turbidityIndexPerCm).toBeGreaterThan(0.01);
  });
});

describe("fit", () => {
  const points = [2, 5, 10, 20, 40].map((strength) => ({
    strength,
    // strength = 1100 index + 500 index^2, solved for the index.
    indexPerCm: (-1100 + Math.sqrt(1100 ** 2 + 2000 * strength)) / 1000,
  }));

  test("is exact on a line with a quadratic term through the origin", () => {
    const tie = tieTurbidity(points, "FNU");
    expect(tie.linear).toBeCloseTo(1100, 4);
    expect(tie.quadratic).toBeCloseTo(500, 2);
    expect(fnuOf(tie, 0)).toBe(0);
    for (const { residual } of tie.points) expect(Math.abs(residual)).toBeLessThan(1e-6);
  });

  test("relative strengths give no FNU, whatever their scale", () => {
    const relative = points.map((point) => ({ ...point, strength: point.strength / 40 }));
    const tie = tieTurbidity(relative, "relative");
    expect(fnuOf(tie, 0.01)).toBeNull();
    expect(strengthOf(tie, points[2].indexPerCm)).toBeCloseTo(10 / 40, 6);
  });

  test("a bend that turns round inside the range is left out", () => {
    const bent = points.map((point, i) => ({
      ...point,
      indexPerCm: [0.001, 0.004, 0.012, 0.013, 0.0125][i],
    }));
    const tie = tieTurbidity(bent, "FNU");
    expect(tie.linear + 2 * tie.quadratic * tie.largestIndex).toBeGreaterThan(0);
  });

  test("too few points, or an index that falls, is refused", () => {
    expect(() => tieTurbidity(points.slice(0, 3), "FNU", "series.json")).toThrow(
      expect.objectContaining({ code: "bad-json", input: "series.json" }) as Error,
    );
    const falling = points.map((point) => ({ ...point, indexPerCm: -point.indexPerCm }));
    expect(() => tieTurbidity(falling, "FNU")).toThrow(
      expect.objectContaining({ code: "wrong-use" }) as Error,
    );
  });
});
