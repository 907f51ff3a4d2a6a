import type { JarReading } from "./jarReading.ts";
import { basename } from "node:path";
import type { Triple } from "../numeric/triple.ts";
import type { Warning } from "../errors.ts";
import { besideAt } from "./stripes/besideAt.ts";
import { KAPPA } from "./optics/liquidOptics.ts";
import type { BlankReading } from "./readBlank.ts";
import type { StripeReading } from "./stripes/stripeReading.ts";
import { CLEARER_DEPTH } from "./refuseDarkerBlank.ts";
import { mapTriple } from "../numeric/mapTriple.ts";

/** White stripes below this code are too dark. */
const DARKEST_CODE = 110;

/** Useful optical depth of the attenuation, decadic. */
const LEAST_DEPTH = 0.01;
const LARGEST_DEPTH = 1.3;

/** The white stripe through the liquid must not fall below this code in any channel. */
const LEAST_CODE = 8;

/** Above this share of the attenuation the particles' part is no correction any more. */
const LARGEST_PARTICLE_SHARE = 0.3;

/** Extra attenuation of narrow stripes per turbidity index; the two readings should agree within a factor of two. */
const NARROW_PER_INDEX = 0.42;
const AGREEMENT = 2;

/** Index below which the second reading is noise. */
const LEAST_INDEX = 0.004;

/** Upper and lower half may differ by this much optical depth, and by this share. */
const HALVES_DEPTH = 0.02;
const HALVES_SHARE = 0.15;

/** This many odd columns are more than a speck. */
const MOST_ODD_COLUMNS = 0.15;

/** Light of the two sides may differ by this share from blank to bath. */
const LARGEST_LIGHT_CHANGE = 0.25;

/** Tone curves of blank and bath may differ by this much in S amplitude, or in the exponent. */
const LARGEST_AMPLITUDE_CHANGE = 0.02;
const LARGEST_GAMMA_CHANGE = 0.08;

type Measured = Omit<JarReading, "warnings">;

/** What a reader of the figures must know about the photos. */
export function jarWarnings(
  reading: Measured,
  stripes: StripeReading,
  blank: BlankReading,
): Warning[] {
  return [
    ...exposure(reading.file, stripes),
    ...exposure(blank.photo.file, blank.stripes),
    ...tone(reading, blank),
    ...light(reading.file, stripes, blank.stripes),
    ...range(reading, stripes),
    ...particles(reading),
    ...disturbed(reading, stripes, blank.stripes),
  ];
}

function exposure(file: string, { left, right }: StripeReading): Warning[] {
  const code = Math.min(...left.whiteCode, ...right.whiteCode);
  if (code >= DARKEST_CODE) return [];
  return [
    {
      code: "too-dark",
      message: `${basename(file)} is too dark: white stripes at code ${code.toFixed(0)}, wanted 195 to 240. Expose longer for a firmer figure.`,
    },
  ];
}

function tone(reading: Measured, blank: BlankReading): Warning[] {
  const a = reading.tone;
  const b = blank.photo.tone;
  if (a.kind === "assumed" || b.kind === "assumed")
    return [
      {
        code: "no-card",
        message: `No measured greys of a card in ${basename(a.kind === "assumed" ? reading.file : blank.photo.file)}: the tone curve is taken as plain sRGB, which on a phone can cost a tenth of every figure and more.`,
      },
    ];
  if (
    Math.abs(a.amplitude - b.amplitude) > LARGEST_AMPLITUDE_CHANGE ||
    Math.abs(a.gamma - b.gamma) > LARGEST_GAMMA_CHANGE
  )
    return [
      {
        code: "tone-differs",
        message: `The camera drew another tone curve in ${basename(reading.file)} than in the blank: switch HDR, night and portrait modes off and fix the exposure.`,
      },
    ];
  return [];
}

function light(file: string, sample: StripeReading, blank: StripeReading): Warning[] {
  const lean = ({ left, right }: StripeReading): number => Math.log(right.white[1] / left.white[1]);
  if (Math.abs(lean(sample) - lean(blank)) <= LARGEST_LIGHT_CHANGE) return [];
  return [
    {
      code: "uneven-light",
      message: `The light in ${basename(file)} falls otherwise than in the blank (the two sides changed by ${(100 * Math.abs(Math.expm1(lean(sample) - lean(blank)))).toFixed(0)} %): same lamp, same place, no shadow.`,
    },
  ];
}

function range(reading: Measured, { wide }: StripeReading): Warning[] {
  const depths = reading.attenuationWidePerCm.map((k) => k * reading.pathCm);
  const lowestCode = Math.min(...wide.whiteCode);
  if (lowestCode < LEAST_CODE || depths.some((depth) => !(depth <= LARGEST_DEPTH)))
    return [
      {
        code: "saturated",
        message: `The bath in ${basename(reading.file)} is too dark for this jar (white stripe at code ${lowestCode.toFixed(0)} in its weakest channel): dilute one part with three parts of fresh bath, or use the short side of the jar.`,
      },
    ];
  if (depths.some((depth) => depth < CLEARER_DEPTH))
    return [
      {
        code: "order-swapped",
        message: `${basename(reading.file)} is clearer than its blank (optical depth ${Math.min(...depths).toFixed(2)}): are the two photos swapped, or is the blank of another age?`,
      },
    ];
  if (depths.every((depth) => depth < LEAST_DEPTH))
    return [
      {
        code: "below-range",
        message: `${basename(reading.file)} is not distinguishable from fresh bath.`,
      },
    ];
  return [];
}

function particles(reading: Measured): Warning[] {
  const { turbidityIndexPerCm: beta, attenuationWidePerCm, attenuationNarrowPerCm } = reading;
  const found: Warning[] = [];
  const detectable = attenuationWidePerCm[1] * reading.pathCm > LEAST_DEPTH;
  if (detectable && KAPPA * beta > LARGEST_PARTICLE_SHARE * attenuationWidePerCm[1])
    found.push({
      code: "turbid",
      message: `${basename(reading.file)} is turbid: more than ${100 * LARGEST_PARTICLE_SHARE} % of what it takes away is scattering by particles of unknown kind. Let it stand for an hour, or run it through a paper coffee filter, and photograph it again.`,
    });
  if (reading.turbidityBeyondRange)
    found.push({
      code: "above-range",
      message: `The turbidity in ${basename(reading.file)} is past the range of this reading: take it as "more than".`,
    });
  const extra = attenuationNarrowPerCm[1] - attenuationWidePerCm[1];
  const ratio = extra / (NARROW_PER_INDEX * beta);
  if (beta > LEAST_INDEX && Number.isFinite(ratio) && (ratio > AGREEMENT || ratio < 1 / AGREEMENT))
    found.push({
      code: "readings-differ",
      message: `Veil and narrow stripes disagree on the turbidity in ${basename(reading.file)} (ratio ${ratio.toFixed(1)}): particles of an unusual kind, a smeared jar or a photo out of focus.`,
    });
  return found;
}

function disturbed(reading: Measured, sample: StripeReading, blank: StripeReading): Warning[] {
  const found: Warning[] = [];
  if (Math.max(sample.wide.oddColumns, blank.wide.oddColumns) > MOST_ODD_COLUMNS)
    found.push({
      code: "glare",
      message: `Part of the liquid in ${basename(reading.file)} or its blank shows other stripes than the rest: look for glare, drops, scratches or bubbles on the glass.`,
    });
  if (sample.wideHalves && blank.wideHalves) {
    const [upper, lower] = [0, 1].map((half) => depthOf(sample, blank, half as 0 | 1));
    const differ = upper.some(
      (depth, c) =>
        Math.abs(depth - lower[c]) >
        Math.max(HALVES_DEPTH, HALVES_SHARE * Math.abs(depth + lower[c]) * 0.5),
    );
    if (differ)
      found.push({
        code: "not-settled",
        message: `Top and bottom of the liquid in ${basename(reading.file)} differ: foam, settling matter, layers, or a jar filled lower than the blank. Stir, fill to the blank's mark, wait two minutes and photograph again.`,
      });
  }
  return found;
}

/** Optical depth of the upper or lower half, decadic, linear channels. */
function depthOf(sample: StripeReading, blank: StripeReading, half: 0 | 1): number[] {
  const contrast = (reading: StripeReading): Triple => {
    const levels = reading.wideHalves?.[half] ?? reading.wide;
    const beside = besideAt(reading, levels.x, levels.y).contrast;
    return mapTriple(levels.contrast, (value, c) => value / beside[c]);
  };
  const s = contrast(sample);
  const b = contrast(blank);
  return s.map((value, c) => -Math.log10(value / b[c]));
}
