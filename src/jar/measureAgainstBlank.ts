import type { JarReading } from "./jarReading.ts";
import type { Triple } from "../numeric/triple.ts";
import { absorbanceSigma } from "./optics/absorbanceSigma.ts";
import { jarWarnings } from "./jarWarnings.ts";
import type { LinearPhoto } from "./optics/linearPhoto.ts";
import { type LiquidOptics, liquidOptics } from "./optics/liquidOptics.ts";
import { perChannel } from "./optics/perChannel.ts";
import type { BlankReading } from "./readBlank.ts";
import { readSampleStripes } from "./stripes/readSampleStripes.ts";
import { refuseDarkerBlank } from "./refuseDarkerBlank.ts";
import { refuseOverexposed } from "./refuseOverexposed.ts";
import { refuseShiftedJar } from "./stripes/refuseShiftedJar.ts";
import { softMix } from "../print/softMix.ts";
import { pathLengthCm, type Station } from "./place/station.ts";
import { stripeLight } from "./stripes/stripeLight.ts";
import type { StripeReading } from "./stripes/stripeReading.ts";
import { turbidityIndexSigma } from "./turbidity/turbidityIndexSigma.ts";

/**
 * Absorbance and turbidity of a spent bath from its photo, against the blank in the same jar and place.
 * @throws {LastrinseError} `station-not-found`, `station-moved`, `overexposed`, `blank-darker`: never a number from a photo that can't
 * bear one.
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
    absorbancePerCm: perChannel((c) => soft[c].absorbance),
    absorbanceSigma: perChannel((c) => absorbanceSigma(soft[c].absorbance, soft[c].beta, scatter)),
    displayAbsorbancePerCm: perChannel((c) => display[c].absorbance),
    attenuationWidePerCm: perChannel((c) => soft[c].wide),
    attenuationNarrowPerCm: perChannel((c) => soft[c].narrow),
    turbidityIndexPerCm: soft[1].beta,
    turbidityIndexSigma: turbidityIndexSigma(soft[1].beta),
    turbidityBeyondRange: beyondRange(soft[1], pathCm),
    turbidityFnu: null,
    turbidityFnuSigma: null,
    pathCm: station.passes * pathCm,
    tone: photo.tone,
  };
  refuseDarkerBlank(reading, blank.photo.file);
  return { ...reading, warnings: jarWarnings(reading, stripes, blank) };
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
