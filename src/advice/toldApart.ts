const MOST_DIGITS = 4;

/**
 * Decimals at which a figure stands on its own side of the limit that it is held against, and isn't nothing where it is something.
 * @param least Decimals where any would do.
 */
export function digitsThatDecide(value: number, limit: number, least: number): number {
  for (let digits = least; digits < MOST_DIGITS; digits++) {
    const shown = Number(value.toFixed(digits));
    const sideKept = Math.sign(shown - limit) === Math.sign(value - limit);
    if (sideKept && (shown !== 0 || value === 0)) return digits;
  }
  return MOST_DIGITS;
}

/** A number without the zeros that say nothing: 2, 0.5. */
export function shortest(value: number, digits = MOST_DIGITS): string {
  return String(Number(value.toFixed(digits)));
}

/** A difference beside its limit, dE00: "3.9" and "2", and with more decimals where they would look alike. */
export function deltaBeside(value: number, limit: number): string {
  return value.toFixed(digitsThatDecide(value, limit, 1));
}

/**
 * A share beside its limit, as per cent: "4 %" and "10 %", but "10.4 %" where rounding would hide which side it is on. A share that is not
 * nothing is never printed as 0 %.
 */
export function shareBeside(share: number, limit: number): string {
  if (share > 0 && share < 0.01 && limit >= 0.01) return "under 1 %";
  return `${(100 * share).toFixed(digitsThatDecide(100 * share, 100 * limit, 0))} %`;
}

/** A limit that somebody set, as per cent and as it was set: 10 %, 12.5 %. */
export function limitShare(limit: number): string {
  return `${shortest(100 * limit)} %`;
}
