/**
 * Share of one bath's solution that a wet sheet takes into the next.
 * @param wetSheetMl Liquid the drained sheet holds, mL.
 * @param bathVolumeMl Fresh liquid of the next bath, mL.
 * @returns v / (V + v), 0..1.
 */
export function carryOver(wetSheetMl: number, bathVolumeMl: number): number {
  return wetSheetMl / (bathVolumeMl + wetSheetMl);
}

/**
 * Number of equal rinses after which at most `target` of the first bath's concentration is left, by dilution alone.
 * What clings to the fibre leaves more slowly.
 * @param target Fraction, 0 < target < 1.
 */
export function rinsesTo(target: number, wetSheetMl: number, bathVolumeMl: number): number {
  const share = carryOver(wetSheetMl, bathVolumeMl);
  // A hair of slack: two rinses that leave exactly the target by arithmetic are two, not three by rounding.
  return Math.max(1, Math.ceil(Math.log(target) / Math.log(share) - 1e-9));
}
