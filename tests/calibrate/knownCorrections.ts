import { CHART24_POST2014_LAB } from "../../calibration/chart24-post2014.ts";
import { CARDS } from "../../src/card/cards.ts";
import type { Card, PatchSample } from "../../src/card/card.ts";
import { applyCorrection } from "../../src/calibrate/applyCorrection.ts";
import type { Correction, ToneCurve } from "../../src/calibrate/correction.ts";
import { decodeSrgb, labD50ToSrgb, SRGB_TO_XYZ_D50 } from "../../src/colour/srgb.ts";
import type { Triple } from "../../src/numeric/triple.ts";

export const IDENTITY: ToneCurve = { kind: "identity" };

/** A device near sRGB: the matrix is mixed a little so that nothing is symmetric. */
const matrix = SRGB_TO_XYZ_D50.map((value, i) => value * (1 + 0.05 * ((i % 4) - 1.5))) as never;

export const KNOWN_3X3: Correction = {
  model: "3x3",
  curves: [IDENTITY, IDENTITY, IDENTITY],
  matrix,
  offset: [0, 0, 0],
  plate: null,
};
export const KNOWN_3X4: Correction = { ...KNOWN_3X3, model: "3x4", offset: [0.004, 0.006, -0.003] };
export const KNOWN_GAM: Correction = {
  ...KNOWN_3X3,
  model: "gam+3x3",
  curves: [
    { kind: "power", offset: 0.004, exponent: 1.12 },
    { kind: "power", offset: 0.002, exponent: 0.95 },
    { kind: "power", offset: -0.003, exponent: 1.04 },
  ],
};

/** Twenty-four device colours: those sRGB would have for the chart. */
const LINEAR: readonly Triple[] = CHART24_POST2014_LAB.map((lab) => {
  const [r, g, b] = labD50ToSrgb(lab);
  return [decodeSrgb(r), decodeSrgb(g), decodeSrgb(b)];
});

export function sampleOf(name: string, linear: Triple): PatchSample {
  return {
    name,
    linear,
    deviation: [0.001, 0.001, 0.001],
    clippedHigh: 0,
    clippedLow: 0,
    pixels: 400,
  };
}

/** A card whose reference values are exactly what the known correction makes of the device colours. */
export function cardSeenThrough(correction: Correction): {
  card: Card;
  samples: readonly PatchSample[];
} {
  const card: Card = {
    ...CARDS[0],
    name: "known",
    patches: CARDS[0].patches.map((patch, i) => ({
      ...patch,
      lab: applyCorrection(correction, LINEAR[i]),
    })),
  };
  return { card, samples: card.patches.map(({ name }, i) => sampleOf(name, LINEAR[i])) };
}

export const ALL_USABLE = new Array<boolean>(24).fill(true);
