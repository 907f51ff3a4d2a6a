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

/**
 * Tone-corrected planes with the light made as even as on the card.
 * @param planes Changed in place and returned.
 */
export function evenLight(planes: Planes, correction: Correction, light: BedLight): Planes {
  const { width, height, stepX, stepY, channels } = planes;
  const exponents = correction.curves.map(exponentOf);
  for (let row = 0, i = 0; row < height; row++)
    for (let column = 0; column < width; column++, i++) {
      const here = lightAt(light.field, (column + 0.5) * stepX - 0.5, (row + 0.5) * stepY - 0.5);
      for (let c = 0; c < 3; c++) channels[c][i] /= (here[c] / light.atCard[c]) ** exponents[c];
    }
  return planes;
}
