import type { Darkness } from "./darkness.ts";

/** The films tried: 0 an opaque mixture of ink and paper, 1 a clear film on the paper. */
export const FILMS: readonly number[] = [0, 0.25, 0.5, 0.75, 1];

const MIXTURE_UP_TO = 2.6;
const DARKNESS_OF_FILM = 2;
const HIGHEST_MEAN = 0.95;
const SD_TOLD = 0.25;
const MEAN_UNTOLD = 0.4;
const SD_UNTOLD = 0.4;

/**
 * Weights of the films, summing to 1: by the darkness of the sheet (a mixture with paper does not get dark) and by how far the paper's
 * change shows through the ink.
 * @param throughMisfit u of every film of {@link FILMS}.
 */
export function filmWeights(darkness: Darkness, throughMisfit: readonly number[]): Float64Array {
  const mean = darkness.told
    ? Math.min(HIGHEST_MEAN, Math.max(0, (darkness.value - MIXTURE_UP_TO) / DARKNESS_OF_FILM))
    : MEAN_UNTOLD;
  const sd = darkness.told ? SD_TOLD : SD_UNTOLD;
  const logs = FILMS.map((h, i) => -throughMisfit[i] / 4 - ((h - mean) / sd) ** 2 / 2);
  const largest = Math.max(...logs);
  const weights = Float64Array.from(logs, (log) => Math.exp(log - largest));
  let sum = 0;
  for (const weight of weights) sum += weight;
  return weights.map((weight) => weight / sum);
}
