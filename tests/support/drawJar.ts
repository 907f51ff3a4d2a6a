import {
  BAND_COUNT,
  BAND_FIRST_NM,
  BAND_STEP_NM,
  type Colourant,
  DYE_SHIFT_NM,
  SOFT_BANDS,
} from "../../calibration/colourants.ts";
import type { BathReading } from "../../src/bath/reading.ts";
import { colourantSpectrum, soilSpectrum } from "../../src/print/spectra.ts";
import type { Triple } from "../../src/numeric/triple.ts";
import type { Random } from "../../src/numeric/random.ts";

/** A camera whose bands lie a little elsewhere than the tool's: centres by 3 nm (sd), breadths by 5 %, lobes by 20 %. */
export type Camera = readonly Float64Array[];

export function drawCamera(random: Random): Camera {
  return SOFT_BANDS.map((bells) => {
    const by = 3 * random.normal();
    const breadth = 1 + 0.05 * random.normal();
    const lobes = 1 + 0.2 * random.normal();
    const weights = Float64Array.from({ length: BAND_COUNT }, (_, i) => {
      const nm = BAND_FIRST_NM + i * BAND_STEP_NM - by;
      return bells.reduce((sum, { centreNm, leftNm, rightNm, height }, k) => {
        const z = (nm - centreNm) / (breadth * (nm < centreNm ? leftNm : rightNm));
        return sum + (k === 0 ? height : Math.max(0, lobes) * height) * Math.exp(-0.5 * z * z);
      }, 0);
    });
    const sum = weights.reduce((a, b) => a + b, 0);
    return weights.map((weight) => weight / sum);
  });
}

export interface JarTruth {
  readonly soil: number;
  readonly inks: Partial<Record<Colourant, number>>;
}

export interface DrawnJar {
  readonly reading: BathReading;
  /** Share of ink in the weak absorption summed over this camera's bands. */
  readonly share: number;
}

const PATH_CM = 5;

/** Slope and peak shifts of one paper and one set of inks, and the camera that sees them. */
export interface Bench {
  readonly camera: Camera;
  readonly slope: number;
  readonly shifts: Partial<Record<Colourant, number>>;
}

export function drawBench(random: Random): Bench {
  const shift = () => DYE_SHIFT_NM * (2 * random.uniform() - 1);
  return {
    camera: drawCamera(random),
    slope: Math.min(0.019, Math.max(0.009, 0.014 + 0.002 * random.normal())),
    shifts: { red: shift(), pink: shift(), blue: shift(), violet: shift(), yellow: shift() },
  };
}

/**
 * What the jar stage would report of a bath of known content: absorbance through this camera's own bands at 5 cm, noise of 2 % and 0.0005 per
 * cm, and the stated sigma of 2 %, 0.0005 and 3 % in quadrature.
 */
export function readJar(random: Random, truth: JarTruth, bench: Bench): DrawnJar {
  const parts = [
    { amount: truth.soil, spectrum: soilSpectrum(bench.slope), ink: false },
    ...Object.entries(truth.inks).map(([name, amount]) => ({
      amount,
      spectrum: colourantSpectrum(name as Colourant, bench.shifts[name as Colourant] ?? 0),
      ink: true,
    })),
  ];
  let inkSum = 0;
  let sum = 0;
  const A = [0, 1, 2].map((c) => {
    let light = 0;
    for (let i = 0; i < BAND_COUNT; i++) {
      let density = 0;
      for (const { amount, spectrum, ink } of parts) {
        density += amount * spectrum[i];
        const weak = bench.camera[c][i] * amount * spectrum[i];
        sum += weak;
        if (ink) inkSum += weak;
      }
      light += bench.camera[c][i] * 10 ** (-density * PATH_CM);
    }
    return -Math.log10(light) / PATH_CM;
  });
  const noisy = A.map((value) => value + Math.hypot(0.02 * value, 0.0005) * random.normal());
  return {
    reading: {
      absorbancePerCm: noisy as unknown as Triple,
      absorbanceSigma: noisy.map((value) =>
        Math.hypot(0.02 * value, 0.0005, 0.03 * value),
      ) as unknown as Triple,
      pathCm: PATH_CM,
    },
    share: sum > 0 ? inkSum / sum : 0,
  };
}
