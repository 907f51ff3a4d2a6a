import type { Triple } from "../numeric/triple.ts";
import type { LabImage } from "../grid/labImage.ts";

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

/** A CIELAB D50 colour as {@link relateToWhite}'s picture shows it. */
export function toWhite(lab: Triple, white: Triple): Triple {
  const [wx, wy, wz] = cubeRoots(white);
  const [fx, fy, fz] = cubeRoots(lab);
  return labOfCubeRoots(fx / wx, fy / wy, fz / wz);
}
