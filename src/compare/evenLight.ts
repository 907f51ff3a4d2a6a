import type { Correction, ToneCurve } from "../calibrate/correction.ts";
import { lightAt } from "../calibrate/lightAt.ts";
import { toneCurveAt } from "../calibrate/toneCurveAt.ts";
import type { Planes } from "../grid/planes.ts";
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

/** The field is smooth: it is evaluated at every so many cells along both axes, and linear between. */
const KNOT_CELLS = 16;

/**
 * Tone-corrected planes with the light made as even as on the card.
 * @param planes Changed in place and returned.
 */
export function evenLight(planes: Planes, correction: Correction, light: BedLight): Planes {
  const { width, height, stepX, stepY, channels } = planes;
  const exponents = correction.curves.map(exponentOf);
  // One knot beyond the last cell.
  const knots = Math.floor(width / KNOT_CELLS) + 2;
  const gainsAt = (row: number): Float64Array[] => {
    const gains = exponents.map(() => new Float64Array(knots));
    for (let knot = 0; knot < knots; knot++) {
      const x = (knot * KNOT_CELLS + 0.5) * stepX - 0.5;
      const here = lightAt(light.field, x, (row + 0.5) * stepY - 0.5);
      for (let c = 0; c < 3; c++) gains[c][knot] = (light.atCard[c] / here[c]) ** exponents[c];
    }
    return gains;
  };
  const gain = new Float64Array(knots);
  let above = gainsAt(0);
  for (let band = 0; band < height; band += KNOT_CELLS) {
    const below = gainsAt(band + KNOT_CELLS);
    for (let row = band; row < Math.min(height, band + KNOT_CELLS); row++)
      for (let c = 0; c < 3; c++) {
        for (let knot = 0; knot < knots; knot++)
          gain[knot] =
            above[c][knot] + ((row - band) / KNOT_CELLS) * (below[c][knot] - above[c][knot]);
        multiplyRow(channels[c].subarray(row * width, (row + 1) * width), gain);
      }
    above = below;
  }
  return planes;
}

function multiplyRow(row: Float32Array, gain: Float64Array): void {
  for (let knot = 0, from = 0; from < row.length; knot++, from += KNOT_CELLS) {
    const until = Math.min(row.length, from + KNOT_CELLS);
    const slope = (gain[knot + 1] - gain[knot]) / KNOT_CELLS;
    for (let i = from; i < until; i++) row[i] *= gain[knot] + (i - from) * slope;
  }
}
