import type { Triple } from "../numeric/triple.ts";

const DEGREES = 180 / Math.PI;
const RADIANS = Math.PI / 180;
const TWENTY_FIVE_POW_7 = 25 ** 7;

function hueDegrees(aPrime: number, b: number): number {
  if (aPrime === 0 && b === 0) return 0;
  const h = Math.atan2(b, aPrime) * DEGREES;
  return h < 0 ? h + 360 : h;
}

function meanHueDegrees(h1: number, h2: number, chromaProduct: number): number {
  if (chromaProduct === 0) return h1 + h2;
  if (Math.abs(h1 - h2) <= 180) return (h1 + h2) / 2;
  return h1 + h2 < 360 ? (h1 + h2 + 360) / 2 : (h1 + h2 - 360) / 2;
}

function wrapHueDifference(difference: number): number {
  if (difference > 180) return difference - 360;
  if (difference < -180) return difference + 360;
  return difference;
}

/**
 * CIEDE2000 colour difference, kL = kC = kH = 1, in double precision.
 * @param reference L*, a*, b*.
 * @param sample L*, a*, b* under the same white as `reference`.
 * @returns dE00, unitless, >= 0. Symmetric in its arguments; it jumps where the two hues are exactly opposite.
 * @see Sharma, Wu & Dalal, Color Res. Appl. 30(1), 21-30 (2005). Letters follow the paper.
 */
export function ciede2000(reference: Triple, sample: Triple): number {
  const [L1, a1, b1] = reference;
  const [L2, a2, b2] = sample;
  const CbarStar = (Math.hypot(a1, b1) + Math.hypot(a2, b2)) / 2;
  const CbarStar7 = CbarStar ** 7;
  const G = 0.5 * (1 - Math.sqrt(CbarStar7 / (CbarStar7 + TWENTY_FIVE_POW_7)));
  const a1p = (1 + G) * a1;
  const a2p = (1 + G) * a2;
  const C1p = Math.hypot(a1p, b1);
  const C2p = Math.hypot(a2p, b2);
  const h1p = hueDegrees(a1p, b1);
  const h2p = hueDegrees(a2p, b2);
  const chromaProduct = C1p * C2p;

  const dLp = L2 - L1;
  const dCp = C2p - C1p;
  const dhp = chromaProduct === 0 ? 0 : wrapHueDifference(h2p - h1p);
  const dHp = 2 * Math.sqrt(chromaProduct) * Math.sin((dhp / 2) * RADIANS);

  const Lm = (L1 + L2) / 2;
  const Cm = (C1p + C2p) / 2;
  const hm = meanHueDegrees(h1p, h2p, chromaProduct);
  const T =
    1 -
    0.17 * Math.cos((hm - 30) * RADIANS) +
    0.24 * Math.cos(2 * hm * RADIANS) +
    0.32 * Math.cos((3 * hm + 6) * RADIANS) -
    0.2 * Math.cos((4 * hm - 63) * RADIANS);
  const Lm50Squared = (Lm - 50) ** 2;
  const SL = 1 + (0.015 * Lm50Squared) / Math.sqrt(20 + Lm50Squared);
  const SC = 1 + 0.045 * Cm;
  const SH = 1 + 0.015 * Cm * T;
  const Cm7 = Cm ** 7;
  const dTheta = 60 * Math.exp(-(((hm - 275) / 25) ** 2));
  const RT = -Math.sin(dTheta * RADIANS) * 2 * Math.sqrt(Cm7 / (Cm7 + TWENTY_FIVE_POW_7));

  const l = dLp / SL;
  const c = dCp / SC;
  const h = dHp / SH;
  return Math.sqrt(l * l + c * c + h * h + RT * c * h);
}
