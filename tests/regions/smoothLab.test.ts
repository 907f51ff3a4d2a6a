import { expect, test } from "vitest";
import type { LabImage } from "../../src/grid/labImage.ts";
import { smoothLab } from "../../src/regions/smoothLab.ts";

function picture(
  size: number,
  mmPerCell: number,
  value: (x: number, y: number) => number,
): LabImage {
  const L = Float32Array.from({ length: size * size }, (_, i) =>
    value(i % size, Math.floor(i / size)),
  );
  return {
    width: size,
    height: size,
    L,
    a: L.slice(),
    b: L.slice(),
    mmPerCell,
    stepX: 2,
    stepY: 2,
  };
}

test.each([0.254, 0.1693, 0.127])(
  "the spread of a point is 0.254 mm at %s mm a cell",
  (mmPerCell) => {
    const size = 41;
    const smooth = smoothLab(picture(size, mmPerCell, (x, y) => (x === 20 && y === 20 ? 1 : 0)));
    let sum = 0;
    let variance = 0;
    smooth.L.forEach((value, i) => {
      sum += value;
      variance += value * ((i % size) - 20) ** 2;
    });
    expect(sum).toBeCloseTo(1, 5);
    expect(Math.sqrt(variance) * mmPerCell).toBeCloseTo(0.254, 3);
  },
);

test("at 100 cells an inch it is two 3 x 3 binomial blurs", () => {
  const smooth = smoothLab(picture(9, 0.254, (x, y) => (x === 4 && y === 4 ? 1 : 0)));
  // 1 2 1 with itself: 1 4 6 4 1.
  const kernel = [1, 4, 6, 4, 1].map((w) => w / 16);
  for (let y = 2; y < 7; y++)
    for (let x = 2; x < 7; x++)
      expect(smooth.L[9 * y + x]).toBeCloseTo(kernel[x - 2] * kernel[y - 2], 6);
});

test("what is missing stays missing and does not spread", () => {
  const smooth = smoothLab(picture(9, 0.254, (x) => (x === 4 ? NaN : 50)));
  smooth.b.forEach((value, i) => {
    if (i % 9 === 4) expect(value).toBeNaN();
    else expect(value).toBeCloseTo(50, 4);
  });
});
