import type { PatchSample } from "../card/card.ts";
import { labToXyzD50 } from "../colour/lab.ts";
import type { Triple } from "../numeric/triple.ts";
import type { Matrix3 } from "../numeric/matrix3.ts";
import { multiply3 } from "../numeric/matrix3.ts";
import { differenceCoordinates } from "./differenceCoordinates.ts";

/** What a fit aims at, flat for speed. */
export interface FitTargets {
  readonly count: number;
  /** Decoded linear R, G, B of each patch: three numbers a patch. */
  readonly linear: Float64Array;
  /** XYZ D50 wanted: three numbers a patch. */
  readonly xyz: Float64Array;
  /** The compressed X/Xn, Y/Yn, Z/Zn of CIELAB wanted: three numbers a patch. */
  readonly compressed: Float64Array;
  /** 3 x 3, row-major, a patch: turns a difference of the compressed values into one whose length is its dE00 at that patch. */
  readonly metric: Float64Array;
  readonly labs: readonly Triple[];
  readonly neutral: readonly boolean[];
}

/** L*, a*, b* as sums of the compressed values. */
// prettier-ignore
const LAB_OF_COMPRESSED: Matrix3 = [
    0,  116,    0,
  500, -500,    0,
    0,  200, -200,
];

/**
 * Puts what a frame shows of a card beside what it should be.
 * @param samples One a patch, in the order of the card.
 * @param labs CIELAB D50 wanted, same order and number.
 * @param neutral Which patches are greys, same order and number.
 * @throws {RangeError} The numbers differ.
 */
export function fitTargets(
  samples: readonly PatchSample[],
  labs: readonly Triple[],
  neutral: readonly boolean[],
): FitTargets {
  const count = samples.length;
  if (labs.length !== count || neutral.length !== count)
    throw new RangeError(
      `Expected one wanted colour a patch sample, received ${labs.length} for ${count} samples.`,
    );
  return {
    count,
    linear: Float64Array.from(samples.flatMap((sample) => sample.linear)),
    xyz: Float64Array.from(labs.flatMap((lab) => labToXyzD50(lab))),
    compressed: Float64Array.from(
      labs.flatMap(([L, a, b]) => {
        const fy = (L + 16) / 116;
        return [fy + a / 500, fy, fy - b / 200];
      }),
    ),
    metric: Float64Array.from(
      labs.flatMap((lab) => multiply3(differenceCoordinates(lab), LAB_OF_COMPRESSED)),
    ),
    labs,
    neutral,
  };
}
