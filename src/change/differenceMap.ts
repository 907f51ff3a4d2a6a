import { ciede2000 } from "../colour/ciede2000.ts";

/** Three planes of CIELAB D50; NaN where there is no data. */
export type LabPlanes = readonly [Float32Array, Float32Array, Float32Array];

/** CIEDE2000 of every usable cell (1); NaN elsewhere. */
export function differenceMap(
  before: LabPlanes,
  after: LabPlanes,
  usable: Uint8Array,
): Float32Array {
  const out = new Float32Array(usable.length).fill(NaN);
  for (let i = 0; i < out.length; i++)
    if (usable[i] !== 0)
      out[i] = ciede2000(
        [before[0][i], before[1][i], before[2][i]],
        [after[0][i], after[1][i], after[2][i]],
      );
  return out;
}
