import type { ThreePlanes } from "../grid/threePlanes.ts";

/** Chroma of 0..256 in steps of 1/8: linear between, within 2e-5. */
const CHROMA_STEPS = 2048;
const STEPS_A_CHROMA = 8;
const TWENTY_FIVE_POW_7 = 25 ** 7;

/** sqrt(C^7 / (C^7 + 25^7)), which occurs in G and in RC. One entry more than steps, for the last one to lean on. */
const SEVENTH = Float64Array.from({ length: CHROMA_STEPS + 2 }, (_, i) => {
  const C7 = (i / STEPS_A_CHROMA) ** 7;
  return Math.sqrt(C7 / (C7 + TWENTY_FIVE_POW_7));
});

/** u = sin(hm - 275 degrees), -1..1. */
const ROTATION_STEPS = 2048;
const HALF_ROTATION_STEPS = ROTATION_STEPS / 2;
const DEGREES = 180 / Math.PI;
const RADIANS = Math.PI / 180;

/** 2 sin(60 exp(-((hm - 275) / 25)^2)) by u, for the half circle round 275 degrees; 1e-4 at its ends. */
const ROTATION = Float64Array.from({ length: ROTATION_STEPS + 2 }, (_, i) => {
  const u = Math.min(1, i / HALF_ROTATION_STEPS - 1);
  const dTheta = 60 * Math.exp(-(((Math.asin(u) * DEGREES) / 25) ** 2));
  return 2 * Math.sin(dTheta * RADIANS);
});

const COS_275 = Math.cos(275 * RADIANS);
const SIN_275 = Math.sin(275 * RADIANS);
// The weights of T with the phases of its cosines.
const T1_X = 0.17 * Math.cos(30 * RADIANS);
const T1_Y = 0.17 * Math.sin(30 * RADIANS);
const T3_X = 0.32 * Math.cos(6 * RADIANS);
const T3_Y = 0.32 * Math.sin(6 * RADIANS);
const T4_X = 0.2 * Math.cos(63 * RADIANS);
const T4_Y = 0.2 * Math.sin(63 * RADIANS);

/**
 * CIEDE2000 of planes, `ciede2000` without trigonometry: hues stay unit vectors, whose multiples follow by multiplication, and
 * two small tables hold the seventh powers and the rotation term. For machines without vectors; `deltaE00Kernel` chooses.
 * @param reference L*, a*, b* before. @param sample L*, a*, b* after, under the same white.
 * @param usable Cells with 0 are left as they are in `out`.
 * @param out Receives the differences; as long as every other.
 * @returns `out`, dE00; NaN where a value is NaN. Single precision; against the double formula within 0.0001 on pairs a few dE00
 *   apart and 0.001 on any, except where the two hues are opposite within 0.1 degree: there the formula itself jumps.
 */
export function deltaE00Tables(
  reference: ThreePlanes,
  sample: ThreePlanes,
  usable: Uint8Array,
  out: Float32Array,
): Float32Array {
  const { length } = usable;
  const [planeL1, planeA1, planeB1] = reference;
  const [planeL2, planeA2, planeB2] = sample;
  for (let i = 0; i < length; i++) {
    if (usable[i] === 0) continue;
    const L1 = planeL1[i];
    const a1 = planeA1[i];
    const b1 = planeB1[i];
    const L2 = planeL2[i];
    const a2 = planeA2[i];
    const b2 = planeB2[i];
    const b1Squared = b1 * b1;
    const b2Squared = b2 * b2;

    const meanStar = 0.5 * (Math.sqrt(a1 * a1 + b1Squared) + Math.sqrt(a2 * a2 + b2Squared));
    const stepsStar = Math.min(meanStar * STEPS_A_CHROMA, CHROMA_STEPS);
    const stepStar = stepsStar | 0;
    const seventhStar = SEVENTH[stepStar];
    const onePlusG =
      1.5 - 0.5 * (seventhStar + (stepsStar - stepStar) * (SEVENTH[stepStar + 1] - seventhStar));
    const a1p = onePlusG * a1;
    const a2p = onePlusG * a2;
    const C1p = Math.sqrt(a1p * a1p + b1Squared);
    const C2p = Math.sqrt(a2p * a2p + b2Squared);
    const dC = C2p - C1p;
    const da = a2p - a1p;
    const db = b2 - b1;
    // dE = 2 sqrt(C1' C2') sin(dh'/2), squared: by the law of cosines. Rounding may leave a trace below 0.
    const dHSquared = Math.max(0, da * da + db * db - dC * dC);
    const Cm = 0.5 * (C1p + C2p);

    // The mean hue is the direction of the sum of both unit vectors; a grey has none, then the other's counts.
    let x: number;
    let y: number;
    if (C1p === 0 || C2p === 0) {
      x = a1p + a2p;
      y = b1 + b2;
    } else {
      x = a1p * C2p + a2p * C1p;
      y = b1 * C2p + b2 * C1p;
    }
    const norm = Math.sqrt(x * x + y * y);
    if (norm === 0) {
      x = 1;
      y = 0;
    } else {
      const inverse = 1 / norm;
      x *= inverse;
      y *= inverse;
    }
    const x2 = x * x - y * y;
    const y2 = 2 * x * y;
    const x3 = x2 * x - y2 * y;
    const y3 = x2 * y + y2 * x;
    const x4 = x2 * x2 - y2 * y2;
    const y4 = 2 * x2 * y2;
    const T = 1 - T1_X * x - T1_Y * y + 0.24 * x2 + T3_X * x3 - T3_Y * y3 - T4_X * x4 - T4_Y * y4;

    const L50 = 0.5 * (L1 + L2) - 50;
    const L50Squared = L50 * L50;
    const l = (L2 - L1) / (1 + (0.015 * L50Squared) / Math.sqrt(20 + L50Squared));
    const c = dC / (1 + 0.045 * Cm);
    const SH = 1 + 0.015 * Cm * T;
    let sum = l * l + c * c + dHSquared / (SH * SH);
    if (x * COS_275 + y * SIN_275 > 0) {
      const steps = (y * COS_275 - x * SIN_275 + 1) * HALF_ROTATION_STEPS;
      const step = steps | 0;
      const rotation = ROTATION[step] + (steps - step) * (ROTATION[step + 1] - ROTATION[step]);
      const stepsC = Math.min(Cm * STEPS_A_CHROMA, CHROMA_STEPS);
      const stepC = stepsC | 0;
      const RC = SEVENTH[stepC] + (stepsC - stepC) * (SEVENTH[stepC + 1] - SEVENTH[stepC]);
      const h = Math.sqrt(dHSquared) / SH;
      sum -= rotation * RC * c * (a1p * b2 < a2p * b1 ? -h : h);
    }
    out[i] = Math.sqrt(sum);
  }
  return out;
}
