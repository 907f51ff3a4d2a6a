import { expect, test } from "vitest";
import { seededRandom } from "../../src/numeric/random.ts";
import {
  NO_STRUCTURE,
  STRUCTURE_STEPS,
  structureImage,
} from "../../src/register/structureImage.ts";
import type { WorkingGrey } from "../../src/register/workingGrey.ts";

const [WIDTH, HEIGHT, RADIUS] = [41, 33, 5];
/** 254 dpi: above the resolutions whose beat is blurred away. */
const PITCH_MM = 0.1;
const RADIUS_MM = RADIUS * PITCH_MM;

function picture(grey: (i: number) => number): WorkingGrey {
  return {
    pixels: Uint8Array.from({ length: WIDTH * HEIGHT }, (_, i) => grey(i)),
    outside: null,
    width: WIDTH,
    height: HEIGHT,
    left: 0,
    top: 0,
    pitchX: PITCH_MM,
    pitchY: PITCH_MM,
  };
}

/** The definition, pixel by pixel. */
function direct(pixels: Uint8Array, excluded: Uint8Array | null, x: number, y: number): number {
  if (excluded?.[y * WIDTH + x]) return NO_STRUCTURE;
  const near: number[] = [];
  for (let v = Math.max(0, y - RADIUS); v <= Math.min(HEIGHT - 1, y + RADIUS); v++)
    for (let u = Math.max(0, x - RADIUS); u <= Math.min(WIDTH - 1, x + RADIUS); u++)
      if (!excluded?.[v * WIDTH + u]) near.push(pixels[v * WIDTH + u]);
  const mean = near.reduce((sum, g) => sum + g, 0) / near.length;
  const variance = near.reduce((sum, g) => sum + (g - mean) ** 2, 0) / near.length;
  const score = ((pixels[y * WIDTH + x] - mean) / Math.sqrt(variance + 64)) * STRUCTURE_STEPS;
  return Math.max(-127, Math.min(127, Math.round(score)));
}

test.each([false, true])("running sums give the definition (with exclusions: %s)", (masked) => {
  const random = seededRandom(8);
  const grey = picture(() => random.below(256));
  const excluded = masked
    ? Uint8Array.from({ length: WIDTH * HEIGHT }, (_, i) => (i % WIDTH < 12 && i > 400 ? 1 : 0))
    : null;
  const { values, hole } = structureImage(grey, excluded, RADIUS_MM);
  expect(hole === null).toBe(!masked);
  for (let y = 0; y < HEIGHT; y++)
    for (let x = 0; x < WIDTH; x++)
      // A step apart where a sum of squares rounds the other way at a half.
      expect(
        Math.abs(values[y * WIDTH + x] - direct(grey.pixels, excluded, x, y)),
      ).toBeLessThanOrEqual(1);
});

test("fade and whitening cancel where there is contrast", () => {
  const random = seededRandom(8);
  const codes = Array.from({ length: WIDTH * HEIGHT }, () => random.below(150));
  const before = structureImage(
    picture((i) => codes[i]),
    null,
    RADIUS_MM,
  ).values;
  const after = structureImage(
    picture((i) => 100 + codes[i] * 0.8),
    null,
    RADIUS_MM,
  ).values;
  const off = before.map((value, i) => Math.abs(value - after[i]));
  // Standard deviation 43 against 35 codes under a floor of 8: 1 % of a score of at most 2, and half a code of rounding.
  expect(Math.max(...off)).toBeLessThan(0.06 * STRUCTURE_STEPS);
});

test("at 150 dpi the beat of screen and pixels is gone, but not at the edge of what is excluded", () => {
  const pitch = 25.4 / 150;
  const board = { ...picture((i) => (((i % WIDTH) + Math.floor(i / WIDTH)) % 2 === 0 ? 90 : 110)) };
  const coarse = { ...board, pitchX: pitch, pitchY: pitch };
  const inner = (values: Int8Array): number[] =>
    Array.from(values).filter((_, i) => i % WIDTH > 0 && i % WIDTH < WIDTH - 1 && i > WIDTH);
  expect(
    Math.max(...inner(structureImage(coarse, null, 1).values.subarray(0, -WIDTH)).map(Math.abs)),
  ).toBeLessThanOrEqual(2);
  // A black card on plain paper leaves no trace beside it.
  const card = (i: number): boolean => i % WIDTH < 10;
  const paper = { ...picture((i) => (card(i) ? 0 : 200)), pitchX: pitch, pitchY: pitch };
  const excluded = Uint8Array.from({ length: WIDTH * HEIGHT }, (_, i) => (card(i) ? 1 : 0));
  const { values } = structureImage(paper, excluded, 1);
  expect(values.every((value, i) => value === (card(i) ? NO_STRUCTURE : 0))).toBe(true);
});
