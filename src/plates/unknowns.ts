/**
 * Where the unknowns of a regression with k plates stand: losses, then per band the paper's offset dp, show-through g, drift of the exponent
 * x, added light o, and per plate and band the ink's answer r and its show-through s.
 */
export interface Unknowns {
  readonly plates: number;
  readonly count: number;
  readonly loss: (plate: number) => number;
  readonly offset: (band: number) => number;
  readonly through: (band: number) => number;
  readonly drift: (band: number) => number;
  readonly light: (band: number) => number;
  readonly answer: (plate: number, band: number) => number;
  readonly inkThrough: (plate: number, band: number) => number;
}

/** The layout for k plates: 7 k + 12 unknowns. */
export function unknownsOf(plates: number): Unknowns {
  const k = plates;
  return {
    plates: k,
    count: 7 * k + 12,
    loss: (i) => i,
    offset: (c) => k + c,
    through: (c) => k + 3 + c,
    drift: (c) => k + 6 + c,
    light: (c) => k + 9 + c,
    answer: (i, c) => k + 12 + 3 * i + c,
    inkThrough: (i, c) => 4 * k + 12 + 3 * i + c,
  };
}
