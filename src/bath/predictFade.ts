import type { Colourant } from "../../calibration/colourants.ts";
import { Z90 } from "../../calibration/priors.ts";
import { INK_DEPTH_SHARE, SOLUTION_OVER_PRINT } from "../../calibration/sheet-model.ts";
import { ciede2000 } from "../colour/ciede2000.ts";
import type { Triple } from "../numeric/triple.ts";
import type { BenchFactor } from "./benchFactor.ts";
import { fitInk } from "../print/fitInk.ts";
import { fitPaper } from "../print/fitPaper.ts";
import { sheetLab } from "../print/twoLayerSheet.ts";

/** A 90 % range with its middle. */
export interface Range {
  readonly low: number;
  readonly mid: number;
  readonly high: number;
}

/** How one printed ink pales as its dye leaves, before anything is said about the bench. */
export interface FadeModel {
  /**
   * Model dE00 between the region as it was and after a loss.
   * @param lostDensity Transmission density lost at the ink's peak, >= 0. More than was there counts as all of it.
   */
  readonly deltaE00: (lostDensity: number) => number;
  /** Density of the ink before washing, summed over its colourants. */
  readonly density: number;
  /** dE00 by which the model misses the region's own colour. */
  readonly misfitDeltaE00: number;
}

/**
 * The two-layer model of one ink region, fitted to its colour before washing. A loss is shared by the ink's colourants in proportion to
 * their densities.
 * @param inkLab CIELAB D50 of the region before washing.
 * @param paperLab CIELAB D50 of the bare paper before washing.
 * @param colourants The ink's own, from `classifyInk`.
 * @param depthShare Share of the sheet's thickness that holds ink. Default 0.2, unbiased for 6 to 35 %.
 */
export function fadeModel(
  inkLab: Triple,
  paperLab: Triple,
  colourants: readonly Colourant[],
  depthShare: number = INK_DEPTH_SHARE,
): FadeModel {
  const paperK = fitPaper(paperLab);
  const { ink, undertone, misfitDeltaE00 } = fitInk(inkLab, paperK, colourants, depthShare);
  const density = ink.reduce((sum, layer) => sum + layer.density, 0);
  const labAfter = (lostDensity: number): Triple => {
    const left = density > 0 ? Math.max(0, 1 - lostDensity / density) : 0;
    const paled = ink.map((layer) => ({ ...layer, density: layer.density * left }));
    return sheetLab(paperK, [...paled, ...undertone], depthShare);
  };
  const before = labAfter(0);
  return {
    deltaE00: (lostDensity) => ciede2000(before, labAfter(Math.max(0, lostDensity))),
    density,
    misfitDeltaE00,
  };
}

export interface FadeInput {
  readonly model: FadeModel;
  /** Peak absorbance per cm that left the sheet, all baths together, as a 90 % range. */
  readonly peakPerCm: Range;
  readonly volumeMl: number;
  /** Solid-equivalent printed area, both faces if both carry the ink. */
  readonly areaCm2: number;
  readonly bench: BenchFactor;
}

export interface FadePrediction extends Range {
  /** dE00 at the middle amount by the model alone, no bench factor: what the bench factor is later learned against. */
  readonly modelDeltaE00: number;
  /** What the decision works with: a lognormal whose middle is never far under its top. */
  readonly medianForRisk: number;
  readonly logSdForRisk: number;
  /** The share of `logSdForRisk` that comes from the bath's reading rather than from the bench. */
  readonly logSdOfShare: number;
}

/**
 * A reading whose range reaches down to nothing has no logarithm: its middle is then taken as this many log-sd under its top, which
 * is a fifth of it.
 */
const LARGEST_SHARE_LOG_SD = 1;

/** Transmission density that left a printed area: D = x V / S / q. */
export function lostDensity(peakPerCm: number, volumeMl: number, areaCm2: number): number {
  return (peakPerCm * volumeMl) / areaCm2 / SOLUTION_OVER_PRINT;
}

/**
 * Predicted fade of one ink as a 90 % range: the model at the amounts in the bath, times the bench factor, its error and the bath
 * reading's joined in the logarithm.
 */
export function predictFade(input: FadeInput): FadePrediction {
  const { model, peakPerCm, volumeMl, areaCm2, bench } = input;
  const at = (x: number) => model.deltaE00(lostDensity(x, volumeMl, areaCm2));
  const modelDeltaE00 = at(peakPerCm.mid);
  const top = at(peakPerCm.high);
  const bottom = at(peakPerCm.low);
  const benchReach = Z90 * bench.logSd;

  const leastMid = top * Math.exp(-Z90 * LARGEST_SHARE_LOG_SD);
  const riskMid = Math.max(modelDeltaE00, leastMid);
  const reachUp = riskMid > 0 ? Math.log(Math.max(1, top / riskMid)) : 0;
  const reachDown = Math.log(modelDeltaE00 / bottom);
  return {
    low:
      bottom > 0 ? bench.factor * modelDeltaE00 * Math.exp(-Math.hypot(benchReach, reachDown)) : 0,
    mid: bench.factor * modelDeltaE00,
    high: bench.factor * riskMid * Math.exp(Math.hypot(benchReach, reachUp)),
    modelDeltaE00,
    medianForRisk: bench.factor * riskMid,
    logSdForRisk: Math.hypot(bench.logSd, reachUp / Z90),
    logSdOfShare: reachUp / Z90,
  };
}
