import { expect, test } from "vitest";
import type { Correction, ToneCurve } from "../../src/calibrate/correction.ts";
import { fitLightField } from "../../src/calibrate/fitLightField.ts";
import { lightAt } from "../../src/calibrate/lightAt.ts";
import { monotoneSlopes } from "../../src/numeric/monotoneCubic.ts";
import { evenLight } from "../../src/compare/evenLight.ts";
import type { Planes } from "../../src/grid/planes.ts";

// No multiple of the 16 cells between knots, so that the last ones are used too.
const [WIDTH, HEIGHT] = [53, 37];
const STEP = 4;

const shade = (x: number, y: number): number => 1 + 0.0008 * (x - 100) - 0.0006 * (y - 70);
const field = fitLightField(
  Array.from({ length: 64 }, (_, i) => {
    const [x, y] = [(i % 8) * 30, Math.floor(i / 8) * 21];
    const light = shade(x, y);
    return { x, y, linear: [light, light, light] as const };
  }),
);
const CARD = [180, 20] as const;
const light = { field, atCard: lightAt(field, ...CARD) };

function correctionOf(curve: ToneCurve): Correction {
  const matrix = [1, 0, 0, 0, 1, 0, 0, 0, 1] as const;
  return { model: "3x3", curves: [curve, curve, curve], matrix, offset: [0, 0, 0], plate: null };
}

/** An even grey of tone 0.5 ^ exponent under that light. */
function shaded(exponent: number): Planes {
  const plane = () =>
    Float32Array.from({ length: WIDTH * HEIGHT }, (_, i) => {
      const x = ((i % WIDTH) + 0.5) * STEP - 0.5;
      const y = (Math.floor(i / WIDTH) + 0.5) * STEP - 0.5;
      return (0.5 * shade(x, y)) ** exponent;
    });
  return { width: WIDTH, height: HEIGHT, stepX: STEP, stepY: STEP, channels: [plane(), plane(), plane()] }; // prettier-ignore
}

const x = [0, 0.2, 0.5, 0.8, 1];
const y = x.map((p) => p ** 1.2);
const slope = monotoneSlopes(x, y);

test.each<[string, ToneCurve, number, number]>([
  // Between knots of 64 pixels 1 / light is taken as straight: 64^2 / 8 times its bend, 2 (0.0008^2 + 0.0006^2) / 0.85^2.
  ["no curve", { kind: "identity" }, 1, 1.5e-3],
  ["a power", { kind: "power", offset: 0, exponent: 1.4 }, 1.4, 1.4 * 1.5e-3],
  // One exponent stands for the whole curve.
  ["a free curve", { kind: "monotone", x, y, slope }, 1.2, 2e-3],
])("%s: the whole frame as bright as at the card", (_, curve, exponent, tolerance) => {
  const planes = shaded(exponent);
  expect(evenLight(planes, correctionOf(curve), light)).toBe(planes);
  const wanted = (0.5 * shade(...CARD)) ** exponent;
  for (const plane of planes.channels)
    for (const value of plane) expect(Math.abs(value / wanted - 1)).toBeLessThan(tolerance);
});

test("no data stays no data", () => {
  const planes = shaded(1);
  planes.channels[1][20] = NaN;
  evenLight(planes, correctionOf({ kind: "identity" }), light);
  expect(planes.channels[1][20]).toBeNaN();
  expect(planes.channels[1].filter(Number.isNaN)).toHaveLength(1);
});
