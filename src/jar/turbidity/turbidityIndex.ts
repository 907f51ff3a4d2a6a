/**
 * Turbidity index per cm: the gain of veil, corrected for what the liquid itself swallows on the way in and out (single
 * back-scatter in an absorbing liquid).
 * @param veilGain Veil of the sample less that of the blank, in units of the white stripe beside the jar.
 * @param wide Decadic attenuation per cm.
 */
export function turbidityIndex(veilGain: number, wide: number, pathCm: number): number {
  const k = 2 * Math.LN10 * wide;
  // expm1 keeps its digits where k is small; its limit there is 1 / path.
  const perPath = k === 0 ? 1 / pathCm : k / -Math.expm1(-k * pathCm);
  return (veilGain * perPath) / 2;
}
