import {
  CAMERA_BREADTH_SD,
  CAMERA_CENTRE_SD_NM,
  CAMERA_SPREAD,
  type Colourant,
  DYE_SHIFT_NM,
  SOIL_SLOPE_PER_NM,
  SOIL_SLOPE_RANGE_PER_NM,
  SOIL_SLOPE_SD_PER_NM,
} from "../../calibration/colourants.ts";
import type { Triple } from "../numeric/triple.ts";
import { type Random, seededRandom } from "../numeric/random.ts";
import { weightedQuantile } from "../numeric/weightedQuantile.ts";
import { bandAbsorbance, weakResponse } from "../print/bandAbsorbance.ts";
import { fitAmounts } from "./fitAmounts.ts";
import type { Palette, PaletteInk } from "./palette.ts";
import type { Range } from "./predictFade.ts";
import type { BathReading } from "./reading.ts";
import { LEAST_SD_PER_NM } from "./soilFromStrip.ts";
import { cameraBands, colourantSpectrum, soilSpectrum } from "../print/spectra.ts";
import { mapTriple } from "../numeric/mapTriple.ts";

export interface LikelyShare {
  /** Share of ink in the absorption, summed over the bands: 90 % range. */
  readonly share: Range;
  /** Peak absorbance per cm, by ink id and "soil". */
  readonly amounts: ReadonlyMap<string, Range>;
}

const DRAWS = 200;
/** The same photo and evidence give the same range. */
const SEED = 20_260_401;

/**
 * The likely 90 % range, when the blotters leave at most one ink unbounded: draws of camera, soil slope, peak shift and noise, each solved by
 * least squares through the 31-band model and weighted by how well it fits. Fast inks enter as small unknown amounts.
 * @returns null where two or more inks are unbounded: three bands can't tell more than soil and one ink, and a number would only be
 * a corner of what is possible.
 */
export function likelyShare(reading: BathReading, palette: Palette): LikelyShare | null {
  const open = palette.inks.filter(({ boundPerCm }) => boundPerCm === null);
  if (open.length > 1) return null;
  const bounded = palette.inks.filter(({ boundPerCm }) => boundPerCm !== null);
  const random = seededRandom(SEED);
  const weights = new Float64Array(DRAWS);
  const shares = new Float64Array(DRAWS);
  const amounts = new Map<string, Float64Array>();
  for (const id of ["soil", ...palette.inks.map((ink) => ink.id)])
    amounts.set(id, new Float64Array(DRAWS));
  const put = (id: string, draw: number, value: number): void => {
    const list = amounts.get(id);
    if (list !== undefined) list[draw] = value;
  };

  for (let draw = 0; draw < DRAWS; draw++) {
    const bands = drawBands(random);
    const soil = drawSoil(random, palette, bands);
    // A fast blotter may mean nothing at all or a trace below what shows.
    const trace = random.uniform() < 0.5 ? 0 : random.uniform();
    const small = bounded.map((ink) => ({
      ink,
      spectrum: drawInk(random, ink),
      amount: (ink.boundPerCm ?? 0) * trace * random.uniform(),
    }));
    const { rest, taken } = takeOff(drawNoise(random, reading), small, bands);
    const spectra = [soil.spectrum, ...open.map((ink) => drawInk(random, ink))];
    if (palette.silt) spectra.push(colourantSpectrum("silt"));
    const fit = fitAmounts(rest, spectra, bands);
    const weak = spectra.map(
      (spectrum, j) => fit.amounts[j] * total(weakResponse(spectrum, bands)),
    );
    const ofInk = taken.weak + open.reduce((sum, _, k) => sum + weak[k + 1], 0);
    const whole = taken.weak + weak.reduce((a, b) => a + b, 0);
    shares[draw] = whole > 0 ? ofInk / whole : 0;
    put("soil", draw, fit.amounts[0]);
    open.forEach(({ id }, k) => put(id, draw, fit.amounts[k + 1]));
    small.forEach(({ ink, amount }) => put(ink.id, draw, amount * taken.scale));
    weights[draw] = Math.exp(-0.5 * (fit.chiSquared + soil.chiSquared));
  }
  const range = (values: ArrayLike<number>): Range => ({
    low: weightedQuantile(values, weights, 0.05),
    mid: weightedQuantile(values, weights, 0.5),
    high: weightedQuantile(values, weights, 0.95),
  });
  if (!(weights.reduce((a, b) => a + b, 0) > 0)) return null;
  return {
    share: range(shares),
    amounts: new Map([...amounts].map(([id, values]) => [id, range(values)] as const)),
  };
}

const total = ([r, g, b]: Triple): number => r + g + b;

function drawBands(random: Random): readonly Float64Array[] {
  const three = (sd: number, mean: number) => [0, 1, 2].map(() => mean + sd * random.normal());
  return cameraBands({
    shiftNm: three(CAMERA_CENTRE_SD_NM, 0),
    breadth: three(CAMERA_BREADTH_SD, 1),
  });
}

/**
 * A brown for this draw. Without a strip: one of the published range. With one: the brown that this draw's camera must have seen in the
 * strip's bath, by weighted least squares of the logarithms in amount and slope.
 */
function drawSoil(random: Random, { ownSoil }: Palette, bands: readonly Float64Array[]) {
  if (ownSoil === null) {
    const [least, most] = SOIL_SLOPE_RANGE_PER_NM;
    const slope = SOIL_SLOPE_PER_NM + SOIL_SLOPE_SD_PER_NM * random.normal();
    return { spectrum: soilSpectrum(Math.min(most, Math.max(least, slope))), chiSquared: 0 };
  }
  const { strip, slopePerNm } = ownSoil;
  const at = soilSpectrum(slopePerNm);
  const { amounts } = fitAmounts(strip, [at], bands, 1);
  const seen = bandAbsorbance(amounts, [at], strip.pathCm, undefined, bands);
  const noisy = drawNoise(random, strip).absorbancePerCm;
  const beside = soilSpectrum(slopePerNm + SLOPE_STEP);
  const [near, far] = [weakResponse(at, bands), weakResponse(beside, bands)];
  // Rows: ln(noisy / seen) = change of ln amount + change of slope x lever.
  let [w0, w1, w2, v0, v1] = [0, 0, 0, 0, 0];
  const rows = seen.map((A, c) => {
    const relative =
      strip.absorbanceSigma[c] / Math.max(strip.absorbancePerCm[c], strip.absorbanceSigma[c]);
    const weight = noisy[c] > 0 ? 1 / relative ** 2 : 0;
    const residual = noisy[c] > 0 ? Math.log(noisy[c] / A) : 0;
    const lever = Math.log(far[c] / near[c]) / SLOPE_STEP;
    w0 += weight;
    w1 += weight * lever;
    w2 += weight * lever * lever;
    v0 += weight * residual;
    v1 += weight * lever * residual;
    return { weight, residual, lever };
  });
  const determinant = w0 * w2 - w1 * w1;
  const slopeChange = determinant > 0 ? (w0 * v1 - w1 * v0) / determinant : 0;
  const lnAmount = w0 > 0 ? (v0 - w1 * slopeChange) / w0 : 0;
  const chiSquared = rows.reduce(
    (sum, { weight, residual, lever }) =>
      sum + weight * (residual - lnAmount - lever * slopeChange) ** 2,
    0,
  );
  const slope = slopePerNm + slopeChange + LEAST_SD_PER_NM * random.normal();
  return { spectrum: soilSpectrum(slope), chiSquared };
}

const SLOPE_STEP = 0.001;

/** An ink of several colourants gives them up in a proportion nobody knows. */
function drawInk(random: Random, { colourants }: PaletteInk): Float64Array {
  const parts = colourants.map((colourant: Colourant) => ({
    spectrum: colourantSpectrum(colourant, DYE_SHIFT_NM * (2 * random.uniform() - 1)),
    share: colourants.length === 1 ? 1 : -Math.log(1 - random.uniform()),
  }));
  const sum = parts.reduce((total, { share }) => total + share, 0);
  const out = new Float64Array(parts[0].spectrum.length);
  for (const { spectrum, share } of parts)
    for (let i = 0; i < out.length; i++) out[i] += (share / sum) * spectrum[i];
  return out;
}

/** The reading with its noise drawn once more; the camera's part of the error is drawn with the bands. */
function drawNoise(random: Random, reading: BathReading): BathReading {
  const absorbancePerCm = mapTriple(reading.absorbancePerCm, (A, c) => {
    const sigma = reading.absorbanceSigma[c];
    const noise = Math.sqrt(Math.max((sigma / 2) ** 2, sigma ** 2 - (CAMERA_SPREAD * A) ** 2));
    return A + noise * random.normal();
  });
  return { ...reading, absorbancePerCm };
}

/** Takes the small amounts of fast inks off a reading, never more than half of what a band shows. */
function takeOff(
  reading: BathReading,
  small: readonly { readonly spectrum: Float64Array; readonly amount: number }[],
  bands: readonly Float64Array[],
) {
  const sums = [0, 0, 0];
  for (const { spectrum, amount } of small)
    weakResponse(spectrum, bands).forEach((response, c) => (sums[c] += amount * response));
  let scale = 1;
  sums.forEach((sum, c) => {
    if (sum > 0) scale = Math.min(scale, Math.max(0, reading.absorbancePerCm[c]) / 2 / sum);
  });
  const rest: BathReading = {
    ...reading,
    absorbancePerCm: mapTriple(reading.absorbancePerCm, (A, c) => A - scale * sums[c]),
  };
  return { rest, taken: { scale, weak: scale * (sums[0] + sums[1] + sums[2]) } };
}
