import type { Card } from "../card/card.ts";
import { ciede2000 } from "../colour/ciede2000.ts";
import type { Triple } from "../numeric/triple.ts";
import { mean } from "../numeric/statistics.ts";
import { multiply3Vector } from "../numeric/matrix3.ts";
import type { CalibrationChoice } from "./chooseCorrection.ts";
import { differenceCoordinates } from "./differenceCoordinates.ts";
import type { Frames } from "./fitFrames.ts";
import { frameTargets } from "./fitFrames.ts";
import { leaveOneOutFrames } from "./leaveOneOutFrames.ts";

/** The change that unchanged patches seem to show when both frames are calibrated without them. */
export interface CardNull {
  /** dE00 of each usable patch between the two frames, in rising order. */
  readonly differences: readonly number[];
  /** b^2: the mean of their squares, to take the bias off a measured difference. */
  readonly meanSquare: number;
  /** Mean squares in CIEDE2000 coordinates: of lightness, and of each of the two directions of the plane of chroma and hue. */
  readonly lightness: number;
  readonly plane: number;
}

/**
 * Leaves each patch in turn out of the calibration of both frames and takes its apparent change: the honest base of the floor, since
 * the card itself did not change and the fits never saw the patch.
 */
export function cardNull(frames: Frames, card: Card, choice: CalibrationChoice): CardNull {
  const [before, after] = leaveOneOutFrames(
    choice.model,
    frameTargets(frames, card),
    choice.usable,
  );
  const differences: number[] = [];
  const lightness: number[] = [];
  const plane: number[] = [];
  before.forEach((first, i) => {
    const second = after[i];
    if (first === null || second === null) return;
    const [l, c, h] = multiply3Vector(differenceCoordinates(first), difference(first, second));
    differences.push(ciede2000(first, second));
    lightness.push(l * l);
    plane.push((c * c + h * h) / 2);
  });
  differences.sort((a, b) => a - b);
  return {
    differences,
    meanSquare: mean(differences.map((d) => d * d)),
    lightness: mean(lightness),
    plane: mean(plane),
  };
}

/** F_card at a level: the value d_(ceil(level n)) of the sorted differences. */
export function cardFloor({ differences }: CardNull, level: number): number {
  return differences[Math.max(1, Math.ceil(level * differences.length)) - 1];
}

function difference(first: Triple, second: Triple): Triple {
  return [second[0] - first[0], second[1] - first[1], second[2] - first[2]];
}
