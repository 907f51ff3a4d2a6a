import type { Correction } from "../calibrate/correction.ts";
import { encodeSrgb, SRGB_TO_XYZ_D50 } from "../colour/srgb.ts";
import { invert3, multiply3, multiply3Vector } from "../numeric/matrix3.ts";
import type { Planes } from "../grid/planes.ts";

const XYZ_D50_TO_LINEAR = invert3(SRGB_TO_XYZ_D50);

/** Fine enough that neighbouring entries never differ by more than one 8-bit code above the darkest tones. */
const TABLE_STEPS = 4096;
const ENCODED = Uint8Array.from({ length: TABLE_STEPS + 1 }, (_, i) =>
  Math.round(255 * encodeSrgb(i / TABLE_STEPS)),
);

/** What is shown where there is no data: the ground of the report. */
const NO_DATA = [205, 201, 192] as const;

/**
 * Calibrated colours as sRGB bytes, for looking at only: out-of-gamut colours are clipped and the plate in Lab, where the
 * model has one, is left out.
 * @param planes Tone-corrected linear means.
 */
export function displayPicture(planes: Planes, correction: Correction): Uint8Array {
  const M = multiply3(XYZ_D50_TO_LINEAR, correction.matrix);
  const offset = multiply3Vector(XYZ_D50_TO_LINEAR, correction.offset);
  const [m0, m1, m2, m3, m4, m5, m6, m7, m8] = M;
  const [offsetR, offsetG, offsetB] = offset;
  const [r, g, b] = planes.channels;
  const out = new Uint8Array(3 * r.length);
  for (let i = 0, at = 0; i < r.length; i++, at += 3) {
    const red = r[i];
    const green = g[i];
    const blue = b[i];
    if (Number.isNaN(red)) {
      out[at] = NO_DATA[0];
      out[at + 1] = NO_DATA[1];
      out[at + 2] = NO_DATA[2];
      continue;
    }
    out[at] = encoded(m0 * red + m1 * green + m2 * blue + offsetR);
    out[at + 1] = encoded(m3 * red + m4 * green + m5 * blue + offsetG);
    out[at + 2] = encoded(m6 * red + m7 * green + m8 * blue + offsetB);
  }
  return out;
}

function encoded(linear: number): number {
  const step = linear * TABLE_STEPS + 0.5;
  return ENCODED[step < 0 ? 0 : step > TABLE_STEPS ? TABLE_STEPS : step | 0];
}
