import { labCompression } from "../colour/labCompression.ts";
import { WHITE_D50 } from "../colour/whites.ts";
import type { Planes } from "../raster/planes.ts";
import type { Correction } from "./correction.ts";
import { thinPlateAt } from "./thinPlateAt.ts";

/** L*, a*, b*, each as long as a plane. */
export type LabPlanes = readonly [Float32Array, Float32Array, Float32Array];

/**
 * CIELAB D50 of every cell: `labOfMean` as a bare loop.
 * @param planes Tone-corrected linear means (see `correctionTables`). NaN marks a cell without data and passes through.
 * @param correction Its curves are taken as applied already.
 * @param out Receives the result; may be the planes' own channels. Default: new arrays.
 * @returns `out`. Single precision, compression by tables: within 1e-4 of `labOfMean` but for the darkest tones.
 * @throws {RangeError} `out` has another length than the planes.
 */
export function planesToLab(
  planes: Planes,
  correction: Correction,
  out: LabPlanes = [
    new Float32Array(planes.channels[0].length),
    new Float32Array(planes.channels[0].length),
    new Float32Array(planes.channels[0].length),
  ],
): LabPlanes {
  const [R, G, B] = planes.channels;
  const [outL, outA, outB] = out;
  if (out.some((plane) => plane.length !== R.length))
    throw new RangeError(`Expected planes of ${R.length} cells to write to.`);
  const { matrix, offset, plate } = correction;
  const [m0, m1, m2, m3, m4, m5, m6, m7, m8] = matrix;
  const [x0, y0, z0] = offset;
  const [Xn, Yn, Zn] = WHITE_D50;
  for (let i = 0; i < R.length; i++) {
    const r = R[i];
    const g = G[i];
    const b = B[i];
    const fx = labCompression((m0 * r + m1 * g + m2 * b + x0) / Xn);
    const fy = labCompression((m3 * r + m4 * g + m5 * b + y0) / Yn);
    const fz = labCompression((m6 * r + m7 * g + m8 * b + z0) / Zn);
    outL[i] = 116 * fy - 16;
    outA[i] = 500 * (fx - fy);
    outB[i] = 200 * (fy - fz);
  }
  if (plate !== null)
    for (let i = 0; i < outL.length; i++)
      [outL[i], outA[i], outB[i]] = thinPlateAt(plate, [outL[i], outA[i], outB[i]]);
  return out;
}
