import type { Point } from "../../src/numeric/point.ts";
import { describe, expect, test } from "vitest";
import { lightAt } from "../../src/calibrate/lightAt.ts";
import { encodeSrgb } from "../../src/colour/srgb.ts";
import { bedLight } from "../../src/compare/bedLight.ts";
import { rowSource } from "../../src/raster/rowSource.ts";

const [WIDTH, HEIGHT] = [400, 480];
const MM_PER_PIXEL = 0.5;
/** The sheet, left top right bottom in pixels, and the card below it. */
const SHEET = [80, 70, 320, 330] as const;
const CARD: readonly Point[] = [
  [140, 380],
  [260, 380],
  [260, 440],
  [140, 440],
];
const LATTICE = { width: WIDTH / 2, height: HEIGHT / 2, stepX: 2, stepY: 2 };

function maskOf([left, top, right, bottom]: readonly number[]): Uint8Array {
  return Uint8Array.from({ length: LATTICE.width * LATTICE.height }, (_, i) => {
    const x = (i % LATTICE.width) * 2;
    const y = Math.floor(i / LATTICE.width) * 2;
    return x >= left && x < right && y >= top && y < bottom ? 1 : 0;
  });
}

/** A grey bed under that light, a dark sheet and a black card on it; 16 bit. */
function scan(light: (x: number, y: number) => number) {
  const data = new Uint16Array(3 * WIDTH * HEIGHT);
  for (let y = 0; y < HEIGHT; y++)
    for (let x = 0; x < WIDTH; x++) {
      const onSheet = x >= SHEET[0] && x < SHEET[2] && y >= SHEET[1] && y < SHEET[3];
      const onCard = x >= 140 && x < 260 && y >= 380 && y < 440;
      const reflectance = onCard ? 0.03 : onSheet ? 0.3 : 0.6;
      data.fill(
        Math.round(65535 * encodeSrgb(reflectance * light(x, y))),
        3 * (y * WIDTH + x),
        3 * (y * WIDTH + x + 1),
      );
    }
  return rowSource({ width: WIDTH, height: HEIGHT, bitDepth: 16, data });
}

const fallOff = (x: number, y: number) => 1 + 0.08 * (x / WIDTH - 0.5) - 0.05 * (y / HEIGHT - 0.5);

describe("light from the scanner bed", () => {
  test("a fall-off over the frame is found, sheet and card left out", () => {
    const light = bedLight(scan(fallOff), maskOf(SHEET), LATTICE, CARD, MM_PER_PIXEL);
    expect(light).not.toBeNull();
    const at = (x: number, y: number) => lightAt(light!.field, x, y)[1];
    for (const [x, y] of [
      [20, 20],
      [380, 30],
      [200, 200],
      [30, 450],
    ])
      // Blocks of 6 pixels on a linear field: nothing but rounding is left, and what the sheet's rim may throw in.
      expect(at(x, y) / at(390, 470)).toBeCloseTo(fallOff(x, y) / fallOff(390, 470), 3);
    expect(light!.atCard[1] / at(390, 470)).toBeCloseTo(fallOff(200, 410) / fallOff(390, 470), 3);
    expect(light!.field.residualShare).toBeLessThan(0.001);
  });

  test("none without a sheet, with bed on two sides only, or a bed that is not even", () => {
    const even = scan(() => 1);
    const nothing = new Uint8Array(LATTICE.width * LATTICE.height);
    expect(bedLight(even, nothing, LATTICE, CARD, MM_PER_PIXEL)).toBeNull();
    const corner = maskOf([0, 0, 300, 340]);
    expect(bedLight(even, corner, LATTICE, CARD, MM_PER_PIXEL)).toBeNull();
    const striped = scan((x) => (Math.floor(x / 24) % 2 === 0 ? 1 : 0.9));
    expect(bedLight(striped, maskOf(SHEET), LATTICE, CARD, MM_PER_PIXEL)).toBeNull();
  });

  test("a frame smaller than one block has none", () => {
    const tiny = rowSource({
      width: 4,
      height: 4,
      bitDepth: 8,
      data: new Uint8Array(48).fill(200),
    });
    expect(
      bedLight(tiny, Uint8Array.of(1), { width: 1, stepX: 4, stepY: 4 }, CARD, 0.5),
    ).toBeNull();
  });
});
