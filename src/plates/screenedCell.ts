import { type Primaries, YULE_NIELSEN } from "./primaries.ts";

/** Shares w of the primaries in a cell whose plates print the coverages c independently of each other (Demichel). */
export function primaryShares(
  coverages: Float64Array,
  at: number,
  plates: number,
  out: Float64Array,
): void {
  out[0] = 1;
  let size = 1;
  for (let i = 0; i < plates; i++) {
    const c = coverages[at + i];
    for (let j = 0; j < size; j++) {
      out[size + j] = out[j] * c;
      out[j] *= 1 - c;
    }
    size *= 2;
  }
}

/** ln T of a cell, m(c) = n ln sum_j w_j Q_j, of one band. */
export function cellLogT(primaries: Primaries, band: number, shares: Float64Array): number {
  const { count, Q } = primaries;
  let sum = 0;
  for (let j = 0; j < count; j++) sum += shares[j] * Q[band * count + j];
  return YULE_NIELSEN * Math.log(sum);
}

/** G = dm/df of one plate and band: what losing that plate's colourant does to ln T of the cell. */
export function cellResponse(
  primaries: Primaries,
  band: number,
  plate: number,
  shares: Float64Array,
): number {
  const { count, plates, Q, dQ } = primaries;
  let sum = 0;
  let moved = 0;
  for (let j = 0; j < count; j++) {
    sum += shares[j] * Q[band * count + j];
    moved += shares[j] * dQ[(band * plates + plate) * count + j];
  }
  return (YULE_NIELSEN * moved) / sum;
}

/** att of one band: how much of a change of ln R of the paper shows through the cell's ink, 0..1. */
export function cellThrough(primaries: Primaries, band: number, shares: Float64Array): number {
  const { count, Q, through } = primaries;
  let sum = 0;
  let shown = 0;
  for (let j = 0; j < count; j++) {
    const part = shares[j] * Q[band * count + j];
    sum += part;
    shown += part * through[band * count + j];
  }
  return shown / sum;
}
