import { describe, expect, test } from "vitest";
import { sheetMap } from "../../sample-images/scene/placement.ts";
import type { Placement } from "../../sample-images/scene/placement.ts";

const FLAT: Placement = {
  rotationDegrees: 0,
  scaleX: 1,
  scaleY: 1,
  middle: [100, 140],
  cockleMm: 0,
  shortestWaveMm: 55,
  cockleSeed: 3,
  mirrored: false,
};
const WIDTH = 172;
const HEIGHT = 252;

describe.each([0, -1.7, 90, 91.5, 178.6])("turned by %s degrees", (rotationDegrees) => {
  const placement = { ...FLAT, rotationDegrees, scaleX: 1.012, scaleY: 0.99, cockleMm: 1.5 };
  const map = sheetMap(placement, WIDTH, HEIGHT);

  test("there and back is where it was", () => {
    for (let y = 0; y <= HEIGHT; y += 21)
      for (let x = 0; x <= WIDTH; x += 17.2) {
        const [u, v] = map.toSheet(...map.toFrame(x, y));
        expect(Math.hypot(u - x, v - y)).toBeLessThan(1e-9);
      }
  });

  test("the cockle reaches its peak and no more", () => {
    const flat = sheetMap({ ...placement, cockleMm: 0 }, WIDTH, HEIGHT);
    let peak = 0;
    for (let y = 0; y <= HEIGHT; y += 1)
      for (let x = 0; x <= WIDTH; x += 1) {
        const [u, v] = map.toSheet(...flat.toFrame(x, y));
        peak = Math.max(peak, Math.hypot(u - x, v - y));
      }
    // The peak was found on a grid of 2 mm; waves of 55 mm and more change little between.
    expect(peak).toBeGreaterThan(1.49);
    expect(peak).toBeLessThan(1.51);
  });
});

test("a quarter turn is exact, and clockwise", () => {
  const map = sheetMap({ ...FLAT, rotationDegrees: 90 }, WIDTH, HEIGHT);
  // The head of the sheet comes to lie on the right.
  expect(map.toFrame(WIDTH / 2, 0)).toEqual([100 + HEIGHT / 2, 140]);
});

test("a mirrored sheet has its left on the right", () => {
  const map = sheetMap({ ...FLAT, mirrored: true }, WIDTH, HEIGHT);
  expect(map.toFrame(0, 0)).toEqual([100 + WIDTH / 2, 140 - HEIGHT / 2]);
});
