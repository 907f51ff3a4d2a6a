import { labCompression } from "./labCompression.ts";
import type { ThreePlanes } from "../grid/threePlanes.ts";

/**
 * CIELAB of planes of linear light, compression by tables. For machines without vectors; `lightToLab` chooses.
 * @param rows To X, Y, Z relative to the white: three factors and an offset each.
 * @param out Receives L*, a*, b*; may be `light`, and is as long.
 * @returns `out`: within 1e-4 of the formula but for the darkest tones. NaN stays NaN.
 */
export function lightToLabTables(
  light: ThreePlanes,
  rows: readonly number[],
  out: ThreePlanes,
): ThreePlanes {
  const [R, G, B] = light;
  const [outL, outA, outB] = out;
  const [xr, xg, xb, x0, yr, yg, yb, y0, zr, zg, zb, z0] = rows;
  for (let i = 0; i < R.length; i++) {
    const r = R[i];
    const g = G[i];
    const b = B[i];
    const fx = labCompression(xr * r + xg * g + xb * b + x0);
    const fy = labCompression(yr * r + yg * g + yb * b + y0);
    const fz = labCompression(zr * r + zg * g + zb * b + z0);
    outL[i] = 116 * fy - 16;
    outA[i] = 500 * (fx - fy);
    outB[i] = 200 * (fy - fz);
  }
  return out;
}
