/** Slips beyond this many letters are another word. */
const MOST_SLIPS = 2;

/**
 * The name that was probably meant, by the least number of letters left out, added, exchanged or swapped with their neighbour
 * (optimal string alignment distance). Capitals don't count.
 * @returns null where none is near: more than two slips, or more than a third of the word.
 * @example nearestName("rde", ["red", "blue"]) // "red"
 */
export function nearestName(received: string, names: readonly string[]): string | null {
  const word = received.trim().toLowerCase();
  const most = Math.min(MOST_SLIPS, Math.max(1, Math.floor(word.length / 3)));
  const near = names
    .map((name) => ({ name, slips: slipsBetween(word, name.toLowerCase()) }))
    .filter(({ slips }) => slips <= most)
    .sort((a, b) => a.slips - b.slips);
  return near.at(0)?.name ?? null;
}

function slipsBetween(a: string, b: string): number {
  // rows[i][j]: slips between the first i letters of a and the first j of b.
  const rows = [Array.from({ length: b.length + 1 }, (_, j) => j)];
  for (let i = 1; i <= a.length; i++) {
    rows.push([i]);
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1];
      let least = Math.min(
        rows[i - 1][j] + 1,
        rows[i][j - 1] + 1,
        rows[i - 1][j - 1] + (same ? 0 : 1),
      );
      const swapped = i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1];
      if (swapped) least = Math.min(least, rows[i - 2][j - 2] + 1);
      rows[i].push(least);
    }
  }
  return rows[a.length][b.length];
}
