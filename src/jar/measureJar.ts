import type { Triple } from "../colour/triple.ts";
import { LastrinseError, type Warning } from "../errors.ts";
import type { Raster } from "../raster/raster.ts";
import { fitTone, type Tone } from "./fitTone.ts";
import { flareOf } from "./flareOf.ts";
import type { GreySample } from "./greysOfCard.ts";
import { jarWarnings } from "./jarWarnings.ts";
import { lightTable } from "./lightTable.ts";
import {
  absorbanceSigma,
  type LiquidOptics,
  liquidOptics,
  type StripeLight,
  triple,
  turbidityIndexSigma,
} from "./liquidOptics.ts";
import {
  besideAt,
  type LitPhoto,
  readBlankStripes,
  readSampleStripes,
  type StripeReading,
} from "./readStripes.ts";
import { sidewaysShiftMm } from "./sidewaysShift.ts";
import { softMix } from "./softMix.ts";
import { pathLengthCm, type Station } from "./station.ts";

/** A photo of the jar as it was read. */
export interface JarPhoto {
  readonly file: string;
  readonly raster: Raster;
  /** Greys of the card in it; empty where there is no card, or an unmeasured one. */
  readonly greys: readonly GreySample[];
}

/** What one photo of spent bath says against its blank. All decadic, per cm; bands r g b of the soft mix unless named display. */
export interface JarReading {
  readonly file: string;
  /** Absorption without the particles' part. NaN where no contrast is left. */
  readonly absorbancePerCm: Triple;
  /** Standard uncertainty. */
  readonly absorbanceSigma: Triple;
  /** The same in linear sRGB: for showing only, never for computing. NaN where a channel is out of gamut. */
  readonly displayAbsorbancePerCm: Triple;
  readonly attenuationWidePerCm: Triple;
  /** NaN where the liquid shows no narrow stripes. */
  readonly attenuationNarrowPerCm: Triple;
  /** beta of the green band. */
  readonly turbidityIndexPerCm: number;
  /** Standard uncertainty as a count of particles of one kind. */
  readonly turbidityIndexSigma: number;
  /** true: the index is past the range in which it counts particles; say "more than". */
  readonly turbidityBeyondRange: boolean;
  /** Set by the user's own dilution series, else null. */
  readonly turbidityFnu: number | null;
  readonly turbidityFnuSigma: number | null;
  /** Length of the light's way: passes x path through the liquid. */
  readonly pathCm: number;
  /** Of the spent photo. */
  readonly tone: Tone;
  readonly warnings: readonly Warning[];
}

/** A photo with its tone curve found, ready for reading. */
export interface LinearPhoto extends LitPhoto {
  readonly tone: Tone;
  /** Light that lens and room add everywhere, R G B. */
  readonly flare: Triple;
}

/** A blank, read once for a whole series. */
export interface BlankReading {
  readonly photo: LinearPhoto;
  readonly stripes: StripeReading;
}

/** White stripes above this code are refused, as are more clipped pixels than this share: curves roll off there. */
const BRIGHTEST_CODE = 250;
const MOST_CLIPPED = 0.03;

/** Finds the tone curve of a photo from the greys in it. */
export function linearPhoto({ file, raster, greys }: JarPhoto): LinearPhoto {
  const tone = fitTone(greys);
  return {
    file,
    raster,
    table: lightTable(tone, raster.bitDepth),
    tone,
    flare: flareOf(greys, tone),
  };
}

/**
 * Reads the blank of a set-up.
 * @param tolerance How far stripes may lie from where the station says, pixels. Default: 0.12 of a narrow period.
 * @throws {LastrinseError} `station-not-found`, `station-moved`, `overexposed`.
 */
export function readBlank(photo: LinearPhoto, station: Station, tolerance?: number): BlankReading {
  const stripes = readBlankStripes(photo, station, tolerance);
  refuseOverexposed(photo.file, stripes);
  return { photo, stripes };
}

/**
 * Absorbance and turbidity of a spent bath from its photo, against the blank in the same jar and place.
 * @throws {LastrinseError} `station-not-found`, `station-moved`, `overexposed`: never a number from a photo that can't bear one.
 */
export function measureAgainstBlank(
  photo: LinearPhoto,
  blank: BlankReading,
  station: Station,
): JarReading {
  const stripes = readSampleStripes(photo, station, blank.stripes);
  refuseOverexposed(photo.file, stripes);
  refuseShiftedJar(photo, blank.photo, station);

  const pathCm = pathLengthCm(station);
  const opticsIn = (mix: (linear: Triple) => Triple): LiquidOptics[] => {
    const sampleLight = stripeLight(stripes, photo.flare, mix);
    const blankLight = stripeLight(blank.stripes, blank.photo.flare, mix);
    return sampleLight.map((light, c) =>
      liquidOptics(light, blankLight[c], pathCm, station.passes),
    );
  };
  const soft = opticsIn(softMix);
  const display = opticsIn((linear) => linear);
  const scatter = columnScatter(stripes, blank.stripes) / (station.passes * pathCm);
  const reading = {
    file: photo.file,
    absorbancePerCm: triple((c) => soft[c].absorbance),
    absorbanceSigma: triple((c) => absorbanceSigma(soft[c].absorbance, soft[c].beta, scatter)),
    displayAbsorbancePerCm: triple((c) => display[c].absorbance),
    attenuationWidePerCm: triple((c) => soft[c].wide),
    attenuationNarrowPerCm: triple((c) => soft[c].narrow),
    turbidityIndexPerCm: soft[1].beta,
    turbidityIndexSigma: turbidityIndexSigma(soft[1].beta),
    turbidityBeyondRange: beyondRange(soft[1], pathCm),
    turbidityFnu: null,
    turbidityFnuSigma: null,
    pathCm: station.passes * pathCm,
    tone: photo.tone,
  };
  return { ...reading, warnings: jarWarnings(reading, stripes, blank) };
}

/** Linear light of the stripes in units of the white stripe beside the jar, mixed into bands. */
function stripeLight(
  reading: StripeReading,
  flare: Triple,
  mix: (linear: Triple) => Triple,
): StripeLight[] {
  const { wide, narrow } = reading;
  const beside = besideAt(reading, wide.x, wide.y);
  const inWhites = (light: Triple, white: Triple): Triple =>
    mix(triple((c) => light[c] / white[c]));
  const wideLight = inWhites(wide.contrast, beside.white);
  const wideBeside = inWhites(beside.contrast, beside.white);
  // The black stripe's own light goes with the contrast: rho = black / contrast of the stripes beside the jar.
  const veil = inWhites(
    triple((c) => {
      const rho = (beside.white[c] - beside.contrast[c] - flare[c]) / beside.contrast[c];
      return wide.black[c] - rho * wide.contrast[c];
    }),
    beside.white,
  );
  const besideNarrow = narrow && besideAt(reading, narrow.x, narrow.y);
  const none: Triple = [NaN, NaN, NaN];
  const narrowLight = narrow && besideNarrow ? inWhites(narrow.contrast, besideNarrow.white) : none;
  const narrowBeside = besideNarrow ? inWhites(besideNarrow.contrast, besideNarrow.white) : none;
  return [0, 1, 2].map((c) => ({
    wide: wideLight[c],
    wideBeside: wideBeside[c],
    narrow: narrowLight[c],
    narrowBeside: narrowBeside[c],
    veil: veil[c],
  }));
}

/** Standard error of an optical density from the scatter of columns, both photos; neighbouring columns share their noise. */
function columnScatter(sample: StripeReading, blank: StripeReading): number {
  const independent = 8;
  const spread = Math.hypot(sample.wide.columnSpread, blank.wide.columnSpread);
  return spread / Math.sqrt(independent) / Math.LN10;
}

/** Scattering per turbidity index: formazin has 0.0046 natural per cm and FNU, and an index of 0.00086 per FNU. */
const SCATTERING_PER_INDEX = 5.35;

/** Multiple scattering: past this scattering depth (natural) the veil no longer counts particles. */
const LARGEST_SCATTERING_DEPTH = 1.5;

/** The narrow stripes lose all scattered light, so they tell the scattering itself; without them the index must do. */
function beyondRange({ narrow, absorbance, beta }: LiquidOptics, pathCm: number): boolean {
  const scattering = Number.isNaN(narrow)
    ? SCATTERING_PER_INDEX * beta
    : Math.LN10 * (narrow - Math.max(0, absorbance));
  return scattering * pathCm > LARGEST_SCATTERING_DEPTH;
}

/** A jar this far from its place is seen at another angle, and the boxes come near its walls. */
const LARGEST_SIDEWAYS_MM = 2;

function refuseShiftedJar(sample: LitPhoto, blank: LitPhoto, station: Station): void {
  const shift = sidewaysShiftMm(sample, blank, station);
  if (!(Math.abs(shift) > LARGEST_SIDEWAYS_MM)) return;
  throw new LastrinseError(
    "station-moved",
    `Expected the jar in ${sample.file} where it stands in the blank, received it ${Math.abs(shift).toFixed(1)} mm further ${shift > 0 ? "right" : "left"} (limit ${LARGEST_SIDEWAYS_MM} mm).`,
    {
      remedy:
        "Put the jar back on its mark and photograph again, or photograph a new blank in this position.",
      input: sample.file,
    },
  );
}

function refuseOverexposed(file: string, { left, right, wide }: StripeReading): void {
  for (const levels of [left, right, wide]) {
    const code = Math.max(...levels.whiteCode);
    if (!(code > BRIGHTEST_CODE || levels.clipped > MOST_CLIPPED)) continue;
    throw new LastrinseError(
      "overexposed",
      `Expected white stripes below code ${BRIGHTEST_CODE} in ${file}, received ${code.toFixed(0)} with ${(100 * levels.clipped).toFixed(0)} % of their pixels clipped.`,
      {
        remedy:
          "Photograph blank and bath again with less exposure, so that the white stripes come out between code 195 and 240.",
        input: file,
      },
    );
  }
}
