import type { Triple } from "../colour/triple.ts";
import type { LabImage } from "./labImage.ts";

/** Cells between these quantiles of lightness are taken as the lightest part: bare paper, without glare. */
const LOW_QUANTILE = 0.95;
const HIGH_QUANTILE = 0.99;
/** A darker white would blow small differences up: a sheet printed dark all over. */
const LEAST_WHITE_L = 70;
const LEVELS_PER_UNIT = 10;

/**
 * The lightest part of a sheet, as a first guess of its paper's colour: it is known before any region is.
 * @returns CIELAB D50, mean over the cells between the 95th and the 99th percentile of L*; a neutral L* 70 where that is darker.
 */
export function lightestOf(image: LabImage, mask: Uint8Array): Triple {
  const { L, a, b } = image;
  const levels = new Float64Array(LEVELS_PER_UNIT * 120);
  const level = (i: number): number =>
    Math.min(levels.length - 1, Math.max(0, Math.floor(L[i] * LEVELS_PER_UNIT)));
  let cells = 0;
  for (let i = 0; i < L.length; i++)
    if (mask[i] === 1 && !Number.isNaN(L[i])) {
      levels[level(i)]++;
      cells++;
    }
  const quantileLevel = (p: number): number => {
    let sum = 0;
    for (let k = 0; k < levels.length; k++) if ((sum += levels[k]) >= p * cells) return k;
    return levels.length - 1;
  };
  const low = quantileLevel(LOW_QUANTILE);
  const high = quantileLevel(HIGH_QUANTILE);
  let n = 0;
  const sum = [0, 0, 0];
  for (let i = 0; i < L.length; i++) {
    if (mask[i] === 0 || Number.isNaN(L[i])) continue;
    const k = level(i);
    if (k < low || k > high) continue;
    n++;
    sum[0] += L[i];
    sum[1] += a[i];
    sum[2] += b[i];
  }
  const white: Triple = [sum[0] / n, sum[1] / n, sum[2] / n];
  return white[0] >= LEAST_WHITE_L ? white : [LEAST_WHITE_L, 0, 0];
}

/** Cube roots of X, Y, Z over those of the white point, as in the definition of CIELAB. */
function cubeRoots([L, a, b]: Triple): Triple {
  const fy = (L + 16) / 116;
  return [fy + a / 500, fy, fy - b / 200];
}

function labOfCubeRoots(fx: number, fy: number, fz: number): Triple {
  return [116 * fy - 16, 500 * (fx - fy), 200 * (fy - fz)];
}

/**
 * A picture relative to a white on it. Brown, dull paper squeezes all colours of a print together; relative to it a distance
 * means the same on every sheet. Scaling XYZ scales the cube roots, so it is linear in Lab (but for the very darkest
 * colours, where the difference is of no account).
 * @returns A new image: the white is 100, 0, 0 there.
 */
export function relateToWhite(image: LabImage, white: Triple): LabImage {
  const [wx, wy, wz] = cubeRoots(white);
  const n = image.L.length;
  const L = new Float32Array(n);
  const a = new Float32Array(n);
  const b = new Float32Array(n);
  for (let i = 0; i < n; i++) {
    const fy = (image.L[i] + 16) / 116;
    const gx = (fy + image.a[i] / 500) / wx;
    const gz = (fy - image.b[i] / 200) / wz;
    const gy = fy / wy;
    L[i] = 116 * gy - 16;
    a[i] = 500 * (gx - gy);
    b[i] = 200 * (gy - gz);
  }
  return { ...image, L, a, b };
}

/** The CIELAB D50 of a colour of {@link relateToWhite}'s picture. */
export function unrelateToWhite(lab: Triple, white: Triple): Triple {
  const [wx, wy, wz] = cubeRoots(white);
  const [gx, gy, gz] = cubeRoots(lab);
  return labOfCubeRoots(gx * wx, gy * wy, gz * wz);
}
