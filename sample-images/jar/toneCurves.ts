import { encodeSrgb } from "../../src/colour/srgb.ts";

/** Linear light 0..1 to a code 0..1, as cameras write it. */
export type ToneCurve = (linear: number) => number;

/** Plain sRGB. */
export const srgb: ToneCurve = (linear) => encodeSrgb(linear);

/** sRGB bent towards the smooth step 3e^2 - 2e^3: share 0.47 darkens and lightens the quarter tones by 0.045. */
export function smoothStep(share: number): ToneCurve {
  return (linear) => {
    const e = encodeSrgb(linear);
    return (1 - share) * e + share * e * e * (3 - 2 * e);
  };
}

/** sRGB bent by a logistic curve of that steepness, scaled to keep black and white. */
export function sigmoid(steepness: number): ToneCurve {
  const low = 1 / (1 + Math.exp(steepness / 2));
  return (linear) =>
    (1 / (1 + Math.exp(-steepness * (encodeSrgb(linear) - 0.5))) - low) / (1 - 2 * low);
}

/** Pure power law. */
export function power(gamma: number): ToneCurve {
  return (linear) => linear ** (1 / gamma);
}
