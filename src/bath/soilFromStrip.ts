import { SOIL_SLOPE_RANGE_PER_NM } from "../../calibration/colourants.ts";
import { linspace } from "../numeric/linspace.ts";
import { fitAmounts } from "./fitAmounts.ts";
import type { OwnSoil } from "./palette.ts";
import { type BathReading, showsColour } from "./reading.ts";
import { soilSpectrum } from "../print/spectra.ts";
import { mapTriple } from "../numeric/mapTriple.ts";

const SLOPES = 41;
/** The strip may be somewhat outside the published range. */
const MARGIN_PER_NM = 0.002;
/** However sharp the photo, another piece of the same paper gives another brown (by judgement). */
export const LEAST_SD_PER_NM = 0.0005;

/**
 * Colour of this paper's soil from a bath in which a strip of unprinted paper of the same kind soaked, seen by the same camera:
 * its slope by likelihood over a grid, and what the bands show beyond it.
 * @returns null where the strip's bath cannot be told from the fresh one.
 */
export function soilFromStrip(strip: BathReading): OwnSoil | null {
  if (!showsColour(strip)) return null;
  const [least, most] = SOIL_SLOPE_RANGE_PER_NM;
  const slopes = linspace(least - MARGIN_PER_NM, most + MARGIN_PER_NM, SLOPES);
  const fits = Array.from(slopes, (slope) => fitAmounts(strip, [soilSpectrum(slope)]));
  const best = Math.min(...fits.map(({ chiSquared }) => chiSquared));
  const weights = fits.map(({ chiSquared }) => Math.exp(-0.5 * (chiSquared - best)));
  const total = weights.reduce((a, b) => a + b, 0);
  const slopePerNm = slopes.reduce((sum, slope, i) => sum + slope * weights[i], 0) / total;
  const variance =
    slopes.reduce((sum, slope, i) => sum + weights[i] * (slope - slopePerNm) ** 2, 0) / total;
  const { predicted } = fitAmounts(strip, [soilSpectrum(slopePerNm)]);
  const gains = mapTriple(strip.absorbancePerCm, (A, c) =>
    A > strip.absorbanceSigma[c] ? A / predicted[c] : 1,
  );
  return { strip, slopePerNm, slopeSdPerNm: Math.max(LEAST_SD_PER_NM, Math.sqrt(variance)), gains };
}
