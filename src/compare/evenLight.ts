import type { Correction, ToneCurve } from "../calibrate/correction.ts";
import { lightAt } from "../calibrate/lightAt.ts";
import { toneCurveAt } from "../calibrate/toneCurveAt.ts";
import type { Planes } from "../raster/planes.ts";
import type { BedLight } from "./bedLight.ts";

/** Bounds of the mid-tones over which a free tone curve is summed up as one exponent. */
const MID_LOW = 0.2;
const MID_HIGH = 0.8;

/** How a share of light shows after a tone curve: tone ~ light ^ exponent. Offsets are too small to matter here. */
function exponentOf(curve: ToneCurve): number {
  switch (curve.kind) {
    case "identity":
      return 1;
    case "power":
      return curve.exponent;
    case "monotone":
      return (
        Math.log(toneCurveAt(curve, MID_HIGH) / toneCurveAt(curve, MID_LOW)) /
        Math.log(MID_HIGH / MID_LOW)
      );
  }
}

/** The field is smooth: it is evaluated at every so many cells of a row, and linear between. */
const KNOT_CELLS = 16;

/**
 * Tone-corrected planes with the light made as even as on the card.
 * @param planes Changed in place and returned.
 */
export function evenLight(planes: Planes, correction: Correction, light: BedLight): Planes {
  const { width, height, stepX, stepY, channels } = planes;
  const exponents = correction.curves.map(exponentOf);
  const knots = Math.ceil((width - 1) / KNOT_CELLS) + 1;
  const gains = [0, 1, 2].map(() => new Float64Array(knots));
  for (let row = 0; row < height; row++) {
    const y = (row + 0.5) * stepY - 0.5;
    for (let knot = 0; knot < knots; knot++) {
      const here = lightAt(light.field, (knot * KNOT_CELLS + 0.5) * stepX - 0.5, y);
      for (let c = 0; c < 3; c++) gains[c][knot] = (light.atCard[c] / here[c]) ** exponents[c];
    }
    for (let c = 0; c < 3; c++) {
      const plane = channels[c];
      const gain = gains[c];
      for (let knot = 0; knot * KNOT_CELLS < width; knot++) {
        const from = row * width + knot * KNOT_CELLS;
        const until = row * width + Math.min(width, (knot + 1) * KNOT_CELLS);
        // The last column may lie on the last knot.
        const slope = knot + 1 < knots ? (gain[knot + 1] - gain[knot]) / KNOT_CELLS : 0;
        for (let i = from; i < until; i++) plane[i] *= gain[knot] + (i - from) * slope;
      }
    }
  }
  return planes;
}
