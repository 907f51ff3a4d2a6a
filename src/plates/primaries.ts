import { bandsOfLayer, type InkLaw, logTransmission, PAPER_FALL } from "./inkLaw.ts";

/** Yule and Nielsen's n: light that enters beside a dot and leaves under it. */
export const YULE_NIELSEN = 1.4;

/** Step of a loss for derivatives. */
const LOSS_STEP = 0.001;

/** By how much the paper is lightened for the share of its change that shows through ink. */
const LIGHTER_A = 0.02;
const LIGHTER_B = 0.3;

/**
 * The 2^k overprints of k plates, paper included, at one film and one set of losses.
 * Primary j holds plate i where bit i of j is set. Arrays are band by band: entry c * count + j.
 */
export interface Primaries {
  readonly plates: number;
  /** 2^plates. */
  readonly count: number;
  /** Q = T^(1/n), 3 x count. */
  readonly Q: Float64Array;
  /** dQ/df of plate i at its loss: entry (c * plates + i) * count + j, 0 where primary j lacks the plate. */
  readonly dQ: Float64Array;
  /** How much of a change of ln R of the paper shows through, as an opaque mixture without loss, 3 x count; 1 on bare paper. */
  readonly through: Float64Array;
}

/**
 * Neugebauer primaries between an opaque mixture of ink and paper and a clear film on it.
 * @param absorptions One ink a plate.
 * @param film h, 0 (mixture) to 1 (film).
 * @param losses Share f of each plate's colourant that has gone; small negative values are allowed.
 * @see Neugebauer, Z. wiss. Photogr. 36, 73-89 (1937); Yule & Nielsen, TAGA Proc. 3, 65-76 (1951).
 */
export function primariesOf(
  law: InkLaw,
  absorptions: readonly ArrayLike<number>[],
  film: number,
  losses: ArrayLike<number>,
): Primaries {
  const plates = absorptions.length;
  const count = 1 << plates;
  const Q = new Float64Array(3 * count);
  const dQ = new Float64Array(3 * plates * count);
  const through = new Float64Array(3 * count);
  const solids = absorptions.map((S) => logTransmission(law, S));
  const left = Float64Array.from(losses, (f) => 1 - f);
  const S = new Float64Array(3);
  const logT = (j: number): [number, number, number] => {
    S.fill(0);
    const clear = [0, 0, 0];
    for (let i = 0; i < plates; i++)
      if ((j >> i) & 1)
        for (let c = 0; c < 3; c++) {
          S[c] += left[i] * absorptions[i][c];
          clear[c] += left[i] * solids[i][c];
        }
    const mixed = logTransmission(law, S);
    return [
      (1 - film) * mixed[0] + film * clear[0],
      (1 - film) * mixed[1] + film * clear[1],
      (1 - film) * mixed[2] + film * clear[2],
    ];
  };
  const lighterQ0 = law.q0.map((q, i) => q - LIGHTER_A * law.a - LIGHTER_B * law.b * PAPER_FALL[i]);
  const lighterPaper = bandsOfLayer(lighterQ0, [0, 0, 0]);
  for (let j = 0; j < count; j++) {
    const here = logT(j);
    for (let c = 0; c < 3; c++) Q[c * count + j] = Math.exp(here[c] / YULE_NIELSEN);
    for (let i = 0; i < plates; i++) {
      if (!((j >> i) & 1)) continue;
      const kept = left[i];
      left[i] = kept - LOSS_STEP;
      const less = logT(j);
      left[i] = kept;
      for (let c = 0; c < 3; c++)
        dQ[(c * plates + i) * count + j] =
          (Math.exp(less[c] / YULE_NIELSEN) - Q[c * count + j]) / LOSS_STEP;
    }
    S.fill(0);
    for (let i = 0; i < plates; i++)
      if ((j >> i) & 1) for (let c = 0; c < 3; c++) S[c] += absorptions[i][c];
    const before = bandsOfLayer(law.q0, S);
    const after = bandsOfLayer(lighterQ0, S);
    for (let c = 0; c < 3; c++)
      through[c * count + j] =
        Math.log(after[c] / before[c]) / Math.log(lighterPaper[c] / law.paper[c]);
  }
  return { plates, count, Q, dQ, through };
}
