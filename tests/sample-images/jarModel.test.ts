import { describe, expect, test } from "vitest";
import { CAMERAS, type Camera, eyeOf, type Light, LIGHTS } from "../../sample-images/jar/camera.ts";
import { DYES, soil } from "../../sample-images/jar/liquids.ts";
import type { Spectrum } from "../../sample-images/jar/bands.ts";
import { softMix } from "../../src/print/softMix.ts";
import type { Triple } from "../../src/numeric/triple.ts";

/** Response to a weak absorber per unit of peak absorbance, mean over the model's cameras and lights. */
function weakResponse(spectrum: Spectrum): { linear: number[]; soft: number[] } {
  const amount = 0.01;
  const linear = [0, 0, 0];
  const soft = [0, 0, 0];
  let pairs = 0;
  for (const camera of Object.keys(CAMERAS) as Camera[])
    for (const light of Object.keys(LIGHTS) as Light[]) {
      const eye = eyeOf(camera, light);
      const white = eye.see(spectrum.map(() => 1));
      const seen = eye.see(spectrum.map((e) => 10 ** (-amount * e)));
      const share = seen.map((value, c) => value / white[c]) as unknown as Triple;
      softMix(share).forEach((value, c) => (soft[c] -= Math.log10(value) / amount));
      share.forEach((value, c) => (linear[c] -= Math.log10(value) / amount));
      pairs++;
    }
  return { linear: linear.map((v) => v / pairs), soft: soft.map((v) => v / pairs) };
}

/**
 * Columns of another simulation, over twelve measured cameras and lights (unpublished). Our dyes have widths of our own,
 * so only the pattern must agree: within 0.15 of a column's unit, and the sign of the negative lobes.
 */
const COLUMNS: readonly [string, Spectrum, Triple, Triple][] = [
  ["red", DYES.red, [-0.29, 0.71, 0.62], [0.12, 0.56, 0.62]],
  ["pink", DYES.pink, [-0.13, 0.72, -0.04], [0.16, 0.48, 0.18]],
  ["blue", DYES.blue, [1.02, 0.19, -0.04], [0.65, 0.27, 0.06]],
  ["violet", DYES.violet, [0.55, 0.78, -0.13], [0.57, 0.61, 0.15]],
  ["yellow", DYES.yellow, [-0.04, -0.02, 0.71], [0.03, 0.09, 0.48]],
  ["soil", soil(), [-0.01, 0.26, 0.98], [0.16, 0.33, 0.74]],
];

describe("the forward model sees dyes as the published simulation does", () => {
  test.each(COLUMNS)("%s", (_, spectrum, linear, soft) => {
    const response = weakResponse(spectrum);
    for (let c = 0; c < 3; c++) {
      expect(Math.abs(response.linear[c] - linear[c])).toBeLessThan(0.16);
      expect(Math.abs(response.soft[c] - soft[c])).toBeLessThan(0.13);
    }
    // The camera's colour matrix gives some channel a negative lobe for every dye; mixing back takes all of them out.
    if (Math.min(...linear) < -0.03) expect(Math.min(...response.linear)).toBeLessThan(-0.01);
    expect(Math.min(...response.soft)).toBeGreaterThan(0);
  });
});
