/**
 * What each bath itself took up: A_i' = A_i - A_(i-1) v / V_i, never below 0.
 * @param perCm Amount in each bath as read, per cm.
 * @param volumesMl Volume of each bath, mL.
 * @param wetSheetMl Liquid v the wet sheet brings along, mL.
 */
export function correctCarryOver(
  perCm: readonly number[],
  volumesMl: readonly number[],
  wetSheetMl: number,
): readonly number[] {
  return perCm.map((amount, i) =>
    i === 0 ? amount : Math.max(0, amount - (perCm[i - 1] * wetSheetMl) / volumesMl[i]),
  );
}
