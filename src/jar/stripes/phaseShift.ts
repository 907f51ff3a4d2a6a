/** How far `y` lies below the nearest repeat of `from`, within half a period. */
export function phaseShift(y: number, from: number, period: number): number {
  const difference = y - from;
  return difference - period * Math.round(difference / period);
}
