/** A range whose ends are this many times apart has no middle worth a mark. */
const WIDE = 4;

/** Whether a mark in the middle of a range would say more than is known: the range reaches down to nothing, or far. */
export function isWide(low: number, high: number): boolean {
  return !(low > 0) || high / low > WIDE;
}
