/** A clear dye alone read up to this; over 5 to 80 FNU the index per FNU kept within this share. */
const INDEX_FLOOR = 0.0003;
const INDEX_SHARE = 0.05;

/** Standard uncertainty of a turbidity index, per cm, for particles of one kind. */
export function turbidityIndexSigma(beta: number): number {
  return Math.hypot(INDEX_FLOOR, INDEX_SHARE * beta);
}
