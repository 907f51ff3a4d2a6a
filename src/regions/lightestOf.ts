import type { Triple } from "../numeric/triple.ts";
import type { LabImage } from "../grid/labImage.ts";

/** Cells between these quantiles of lightness are taken as the lightest part: bare paper, without glare. */
const LOW_QUANTILE = 0.95;
const HIGH_QUANTILE = 0.99;
/** A darker white would blow small differences up: a sheet printed dark all over. */
const LEAST_WHITE_L = 70;
const LEVELS_PER_UNIT = 10;

/**
 * The lightest part of a sheet, as a first guess of its paper's colour: it is known before any region is.
 * @returns CIELAB D50, mean over the cells between the 95th and the 99th percentile of L*; a neutral L* 70 where that is darker.
 */
export function lightestOf(image: LabImage, mask: Uint8Array): Triple {
  const { L, a, b } = image;
  const levels = new Float64Array(LEVELS_PER_UNIT * 120);
  const level = (i: number): number =>
    Math.min(levels.length - 1, Math.max(0, Math.floor(L[i] * LEVELS_PER_UNIT)));
  let cells = 0;
  for (let i = 0; i < L.length; i++)
    if (mask[i] === 1 && !Number.isNaN(L[i])) {
      levels[level(i)]++;
      cells++;
    }
  const quantileLevel = (p: number): number => {
    let sum = 0;
    for (let k = 0; k < levels.length; k++) if ((sum += levels[k]) >= p * cells) return k;
    return levels.length - 1;
  };
  const low = quantileLevel(LOW_QUANTILE);
  const high = quantileLevel(HIGH_QUANTILE);
  let n = 0;
  const sum = [0, 0, 0];
  for (let i = 0; i < L.length; i++) {
    if (mask[i] === 0 || Number.isNaN(L[i])) continue;
    const k = level(i);
    if (k < low || k > high) continue;
    n++;
    sum[0] += L[i];
    sum[1] += a[i];
    sum[2] += b[i];
  }
  const white: Triple = [sum[0] / n, sum[1] / n, sum[2] / n];
  return white[0] >= LEAST_WHITE_L ? white : [LEAST_WHITE_L, 0, 0];
}
