import { afterAll, expect, test } from "vitest";
import { seededRandom } from "../../src/numeric/random.ts";
import { detectFeatures } from "../../src/vision/detectFeatures.ts";
import { closeVision } from "../../src/vision/pool.ts";

afterAll(closeVision);

const SIDE = 160;

/** White squares on black, seeded places. */
function squares(shift: number): Uint8Array {
  const random = seededRandom(7);
  const pixels = new Uint8Array(SIDE * SIDE);
  for (let i = 0; i < 14; i++) {
    const x0 = 10 + random.below(110) + shift;
    const y0 = 10 + random.below(110);
    for (let y = y0; y < y0 + 12; y++)
      for (let x = x0; x < x0 + 12; x++) pixels[y * SIDE + x] = 255;
  }
  return pixels;
}

test("key points move with the picture and repeat exactly", async () => {
  const here = await detectFeatures({ pixels: squares(0), width: SIDE, height: SIDE });
  const again = await detectFeatures({ pixels: squares(0), width: SIDE, height: SIDE });
  const shifted = await detectFeatures({ pixels: squares(5), width: SIDE, height: SIDE });
  expect(here.response.length).toBeGreaterThan(10);
  expect(again).toEqual(here);
  expect(shifted.xy[0] - here.xy[0]).toBeCloseTo(5, 1);
  expect(here.descriptors.length).toBe(here.response.length * here.bytesPerDescriptor);
});

test("a blank picture has no key points", async () => {
  const none = await detectFeatures({
    pixels: new Uint8Array(SIDE * SIDE),
    width: SIDE,
    height: SIDE,
  });
  expect(none.response).toHaveLength(0);
});
