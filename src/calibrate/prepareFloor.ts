import type { Card } from "../card/card.ts";
import { ciede2000 } from "../colour/ciede2000.ts";
import type { Triple } from "../numeric/triple.ts";
import { covariance3 } from "../numeric/covariance3.ts";
import { chiSquaredQuantile } from "../numeric/chiSquared.ts";
import { type Matrix3, invert3, multiply3, transpose3, mapMatrix3 } from "../numeric/matrix3.ts";
import { applyCorrection } from "./applyCorrection.ts";
import { type BootstrapOptions, bootstrapFrames } from "./bootstrapFrames.ts";
import { type CardNull, cardFloor, cardNull } from "./cardNull.ts";
import type { CalibrationChoice } from "./chooseCorrection.ts";
import type { Correction } from "./correction.ts";
import { covarianceRadius, scaledChiSquared } from "./covarianceRadius.ts";
import { detectionFloor, floorLevel } from "./detectionFloor.ts";
import { differenceCoordinates } from "./differenceCoordinates.ts";
import { type Interval, differenceInterval } from "./differenceInterval.ts";
import type { Frames } from "./fitFrames.ts";
import { invertToneCurve } from "./invertToneCurve.ts";
import { labOfMean } from "./labOfMean.ts";
import { lightCovariance, lightTerm, USUAL_UNEVENNESS } from "./lightTerm.ts";
import { type SplitDifference, splitDifference } from "./splitDifference.ts";

/**
 * Standard deviation of measured by true change, as a share: three sensors that are not the observer's see a true change of a spectrum
 * some percent smaller or larger (0.92 to 1.01 over the inks of the simulation in tests/calibrate; 0.96 to 0.99 in another simulation).
 */
const SENSITIVITY_SHARE = 0.04;

const NO_COVARIANCE: Matrix3 = [0, 0, 0, 0, 0, 0, 0, 0, 0];

/** An area as both frames show it, and what else makes its difference uncertain. */
export interface MeasuredArea {
  /** Mean tone-corrected linear colour before and after, as `labOfMean` takes it. */
  readonly before: Triple;
  readonly after: Triple;
  /** Covariance of the Lab difference from the area's own texture: see `samplingCovariance`. Default none. */
  readonly sampling?: Matrix3;
  /** Covariance of the Lab difference from not knowing exactly where its cells lie in the other frame. Default none. */
  readonly place?: Matrix3;
  /**
   * dE00 of an unwashed control at the far side of the frame; 0 where a flat field was divided out of both frames.
   * Default: that of the usual unevenness of a flatbed scanner.
   */
  readonly light?: number;
}

export interface AreaDifference {
  readonly labBefore: Triple;
  readonly labAfter: Triple;
  readonly deltaE00: number;
  /** 95 % interval of the true dE00. */
  readonly interval: Interval;
  /** dE00 with the bias of small distances taken off: sqrt(max(0, dE^2 - b^2)). */
  readonly debiasedDeltaE00: number;
  /** The smallest change that may be claimed here, as one of `regionCount` areas; and its terms. */
  readonly floor: number;
  readonly cardFloor: number;
  readonly bootstrap: number;
  readonly sampling: number;
  readonly light: number;
  readonly place: number;
  /** Covariance of the measured Lab difference: all terms together, and what the sensors make of a true change. */
  readonly covariance: Matrix3;
  /** Lightness, chroma and hue, each with its 95 % interval from that covariance. */
  readonly split: SplitDifference;
}

export interface PreparedFloor {
  readonly cardNull: CardNull;
  /** Calibrations (before, after) of the bootstrap rounds, for quantities made of several areas. */
  readonly rounds: readonly (readonly Correction[])[];
  /**
   * Measures the difference of one area with its floor.
   * @param regionCount Areas that are judged together; default 1.
   */
  readonly at: (area: MeasuredArea, regionCount?: number) => AreaDifference;
}

/**
 * Does once what all areas of a pair share: the card null and the bootstrap.
 * @param frames The two frames, before then after, as given to `chooseCorrection`.
 * @param choice What `chooseCorrection` made of them.
 */
export function prepareFloor(
  frames: Frames,
  card: Card,
  choice: CalibrationChoice,
  options: BootstrapOptions,
): PreparedFloor {
  if (frames.length !== 2) throw new RangeError(`Expected two frames, received ${frames.length}.`);
  const unchanged = cardNull(frames, card, choice);
  const rounds = bootstrapFrames(frames, card, choice, options);
  const [before, after] = choice.frames.map((frame) => frame.correction);

  const at = (area: MeasuredArea, regionCount = 1): AreaDifference => {
    const level = floorLevel(regionCount);
    const labBefore = labOfMean(before, area.before);
    const labAfter = labOfMean(after, area.after);
    const lab: Triple = [
      (labBefore[0] + labAfter[0]) / 2,
      (labBefore[1] + labAfter[1]) / 2,
      (labBefore[2] + labAfter[2]) / 2,
    ];
    // Other calibrations have other tone curves: they start from the even colour that these means would come from.
    const first = decoded(before, area.before);
    const second = decoded(after, area.after);
    const drawn = covariance3(
      rounds.map(([one, other]): Triple => {
        const a = applyCorrection(one, first);
        const b = applyCorrection(other, second);
        return [b[0] - a[0], b[1] - a[1], b[2] - a[2]];
      }),
    );
    const texture = area.sampling ?? NO_COVARIANCE;
    const placed = area.place ?? NO_COVARIANCE;
    const own = nullCovariance(unchanged, lab);
    const light = area.light ?? lightTerm(lab, USUAL_UNEVENNESS);
    const lit = lightCovariance(lab, light);
    const covariance = mapMatrix3(drawn, (value, i) => {
      const sensed =
        SENSITIVITY_SHARE ** 2 *
        (labAfter[Math.floor(i / 3)] - labBefore[Math.floor(i / 3)]) *
        (labAfter[i % 3] - labBefore[i % 3]);
      return value + own[i] + texture[i] + placed[i] + lit[i] + sensed;
    });
    const terms = {
      card: cardFloor(unchanged, level),
      bootstrap: covarianceRadius(drawn, lab, level),
      sampling: covarianceRadius(texture, lab, level),
      light: light * lightFactor(level),
      place: covarianceRadius(placed, lab, level),
    };
    const deltaE00 = ciede2000(labBefore, labAfter);
    return {
      labBefore,
      labAfter,
      deltaE00,
      interval: differenceInterval(deltaE00, scaledChiSquared(covariance, lab)),
      debiasedDeltaE00: Math.sqrt(Math.max(0, deltaE00 ** 2 - unchanged.meanSquare)),
      floor: detectionFloor(terms),
      cardFloor: terms.card,
      bootstrap: terms.bootstrap,
      sampling: terms.sampling,
      light: terms.light,
      place: terms.place,
      covariance,
      split: splitDifference(labBefore, labAfter, covariance),
    };
  };
  return { cardNull: unchanged, rounds, at };
}

/** An unevenness, measured or usual, is a 95 % figure of one number: at another level it grows as a normal quantile does. */
function lightFactor(level: number): number {
  return Math.sqrt(chiSquaredQuantile(level, 1) / chiSquaredQuantile(floorLevel(1), 1));
}

function decoded(correction: Correction, tone: Triple): Triple {
  return [
    invertToneCurve(correction.curves[0], tone[0]),
    invertToneCurve(correction.curves[1], tone[1]),
    invertToneCurve(correction.curves[2], tone[2]),
  ];
}

/** The spread that the card null shows, carried over to another colour through its CIEDE2000 coordinates. */
function nullCovariance({ lightness, plane }: CardNull, lab: Triple): Matrix3 {
  const back = invert3(differenceCoordinates(lab));
  return multiply3(back, multiply3([lightness, 0, 0, 0, plane, 0, 0, 0, plane], transpose3(back)));
}
