import { lightToLab } from "../colour/lightToLab.ts";
import { sharedFloats } from "../numeric/shared.ts";
import type { Planes } from "../grid/planes.ts";
import type { Correction } from "./correction.ts";
import { thinPlateAt } from "./thinPlateAt.ts";

/** L*, a*, b*, each as long as a plane. */
export type LabPlanes = readonly [Float32Array, Float32Array, Float32Array];

/**
 * CIELAB D50 of every cell: `labOfMean` as a bare loop.
 * @param planes Tone-corrected linear means (see `correctionTables`). NaN marks a cell without data and passes through.
 * @param correction Its curves are taken as applied already.
 * @param out Receives the result; may be the planes' own channels. Default: new arrays, shared between threads.
 * @returns `out`. Single precision: within 2e-4 of `labOfMean`.
 * @throws {RangeError} `out` has another length than the planes.
 */
export function planesToLab(
  planes: Planes,
  correction: Correction,
  out: LabPlanes = [
    sharedFloats(planes.channels[0].length),
    sharedFloats(planes.channels[0].length),
    sharedFloats(planes.channels[0].length),
  ],
): LabPlanes {
  const { matrix, offset, plate } = correction;
  lightToLab(planes.channels, matrix, offset, out);
  const [outL, outA, outB] = out;
  if (plate !== null)
    for (let i = 0; i < outL.length; i++)
      [outL[i], outA[i], outB[i]] = thinPlateAt(plate, [outL[i], outA[i], outB[i]]);
  return out;
}
