import { DAVIES_A, ION_PAIR_L_PER_MOL } from "../../calibration/calcium-hydroxide.ts";
import { interpolate } from "../numeric/interpolate.ts";
import { waterPKw } from "./waterIonProduct.ts";

const OUTER_ROUNDS = 40;
const BISECTIONS = 80;

/**
 * pH of a Ca(OH)2 solution free of carbonate: mass balance with the ion pair CaOH+ and Davies activities,
 * log10 g = -A z^2 (sqrt I / (1 + sqrt I) - 0.3 I), pH = pKw + log10(g1 [OH]).
 * @param molPerL Ca(OH)2 dissolved, >= 0. 0 is pure water.
 * @param temperatureC 0..100.
 * @param pairConstant K of Ca2+ + OH- = CaOH+, L/mol, on activities. Default 20; 0 leaves the pair out.
 * @returns pH. Meets NBS 12.45 at 25 C saturated within 0.02.
 * @see Davies, Ion Association (1962); Bates, Bower & Smith 1956 for the check.
 */
export function limePh(
  molPerL: number,
  temperatureC: number,
  pairConstant: number = ION_PAIR_L_PER_MOL,
): number {
  const A = interpolate(DAVIES_A, temperatureC);
  const pKw = waterPKw(temperatureC);
  const c = molPerL;
  let I = 3 * c;
  let OH = 0;
  let g1 = 1;
  for (let round = 0; round < OUTER_ROUNDS; round++) {
    const screening = Math.sqrt(I) / (1 + Math.sqrt(I)) - 0.3 * I;
    g1 = 10 ** (-A * screening);
    const g2 = 10 ** (-4 * A * screening);
    const K = pairConstant * g2;
    const Kw = 10 ** -pKw / (g1 * g1);
    // Charge balance: [OH] = 2 [Ca] + [CaOH] + [H]; the right side falls as [OH] grows, so bisection can't miss.
    let low = 0;
    let high = 2 * c + 2 * Math.sqrt(Kw);
    for (let i = 0; i < BISECTIONS; i++) {
      OH = (low + high) / 2;
      if ((c * (2 + K * OH)) / (1 + K * OH) + Kw / OH > OH) low = OH;
      else high = OH;
    }
    const Ca = c / (1 + K * OH);
    I = (4 * Ca + (c - Ca) + OH + Kw / OH) / 2;
  }
  return pKw + Math.log10(g1 * OH);
}
