import type { Triple } from "../numeric/triple.ts";
import type { Matrix3 } from "../numeric/matrix3.ts";

const DEGREES = 180 / Math.PI;
const TWENTY_FIVE_POW_7 = 25 ** 7;

/**
 * The matrix W that turns a small difference of Lab at one colour into coordinates whose length is its CIEDE2000:
 * |W d| = dE00(lab - d/2, lab + d/2) for small d. It is the local ratio of CIEDE2000 to the Lab distance, for every direction at once.
 * The first coordinate is dL'/SL; the other two span the plane of chroma and hue.
 * @param lab CIELAB of the colour around which differences are taken.
 * @see Sharma, Wu & Dalal (2005), kL = kC = kH = 1; letters as in the paper, means replaced by the values at the colour itself.
 */
export function differenceCoordinates(lab: Triple): Matrix3 {
  const [L, a, b] = lab;
  const C7 = Math.hypot(a, b) ** 7;
  const G = 0.5 * (1 - Math.sqrt(C7 / (C7 + TWENTY_FIVE_POW_7)));
  const aPrime = (1 + G) * a;
  const C = Math.hypot(aPrime, b);
  const h = C === 0 ? 0 : Math.atan2(b, aPrime);
  const T =
    1 -
    0.17 * Math.cos(h - 30 / DEGREES) +
    0.24 * Math.cos(2 * h) +
    0.32 * Math.cos(3 * h + 6 / DEGREES) -
    0.2 * Math.cos(4 * h - 63 / DEGREES);
  const SL = 1 + (0.015 * (L - 50) ** 2) / Math.sqrt(20 + (L - 50) ** 2);
  const SC = 1 + 0.045 * C;
  const SH = 1 + 0.015 * C * T;
  const hDegrees = h < 0 ? h * DEGREES + 360 : h * DEGREES;
  const dTheta = 30 * Math.exp(-(((hDegrees - 275) / 25) ** 2));
  const C7Prime = C ** 7;
  const RT =
    -Math.sin((2 * dTheta) / DEGREES) * 2 * Math.sqrt(C7Prime / (C7Prime + TWENTY_FIVE_POW_7));

  // dC'/SC and dH'/SH as rows on (a*, b*); then c^2 + h^2 + RT c h = (c + RT h / 2)^2 + (1 - RT^2 / 4) h^2.
  const chroma = [(Math.cos(h) * (1 + G)) / SC, Math.sin(h) / SC] as const;
  const hue = [(-Math.sin(h) * (1 + G)) / SH, Math.cos(h) / SH] as const;
  const rest = Math.sqrt(1 - (RT * RT) / 4);
  // prettier-ignore
  return [
    1 / SL, 0, 0,
    0, chroma[0] + (RT / 2) * hue[0], chroma[1] + (RT / 2) * hue[1],
    0, rest * hue[0], rest * hue[1],
  ];
}
