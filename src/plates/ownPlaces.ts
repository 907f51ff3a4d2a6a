const LARGEST_SPREAD = 0.5;
const LEAST_COVERAGE = 0.2;
const TIMES_ANY_OTHER = 2;
const SMALLEST_SHARE = 0.005;

/**
 * Whether each plate has places of its own: smooth cells where it prints a fifth and twice as much as any other coloured plate. Without
 * them its loss cannot be told from an error of another ink's solid. Black is exempt.
 * @param coverages Most black, k values a cell. @param spread e of the cells.
 */
export function ownPlaces(
  coverages: Float64Array,
  spread: Float64Array,
  black: readonly boolean[],
): readonly boolean[] {
  const k = black.length;
  const counts = new Int32Array(k);
  for (let cell = 0; cell < spread.length; cell++) {
    if (spread[cell] >= LARGEST_SPREAD) continue;
    for (let i = 0; i < k; i++) {
      const c = coverages[cell * k + i];
      if (black[i] || c <= LEAST_COVERAGE) continue;
      let own = true;
      for (let j = 0; j < k; j++)
        if (j !== i && !black[j] && c < TIMES_ANY_OTHER * coverages[cell * k + j]) own = false;
      if (own) counts[i]++;
    }
  }
  return black.map((isBlack, i) => isBlack || counts[i] >= SMALLEST_SHARE * spread.length);
}
