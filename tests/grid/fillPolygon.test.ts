import { expect, test } from "vitest";
import { fillPolygon } from "../../src/grid/fillPolygon.ts";

function filled(polygon: readonly (readonly [number, number])[], stepX = 1, stepY = 1): string[] {
  const width = 6;
  const height = 5;
  const mask = new Uint8Array(width * height);
  fillPolygon(mask, { width, height, stepX, stepY }, polygon, 1);
  return Array.from({ length: height }, (_, y) =>
    Array.from(mask.subarray(y * width, (y + 1) * width)).join(""),
  );
}

test("cells whose centre lies inside", () => {
  const square = [
    [0.6, 0.6],
    [3.4, 0.6],
    [3.4, 2.4],
    [0.6, 2.4],
  ] as const;
  expect(filled(square)).toEqual(["000000", "011100", "011100", "000000", "000000"]);
});

test("full pixels are turned into cells: X = (x + 0.5) step - 0.5", () => {
  // Cells 1 to 3 of 4 pixels: pixels 4 to 15, that is from the borders 3.5 to 15.5; rows of 10 pixels.
  const box = [
    [3.5, 9.5],
    [15.5, 9.5],
    [15.5, 29.5],
    [3.5, 29.5],
  ] as const;
  expect(filled(box, 4, 10)).toEqual(["000000", "011100", "011100", "000000", "000000"]);
});

test("even-odd for a star, and parts beyond the frame are cut off", () => {
  const bowTie = [
    [-9, -0.5],
    [-9, 4.5],
    [19, -0.5],
    [19, 4.5],
  ] as const;
  // Crosses in column 5: rows below and above the crossing are outside there.
  expect(filled(bowTie)[2]).toBe("111111");
  expect(filled(bowTie)[0][5]).toBe("0");
  expect(
    filled([
      [50, 50],
      [60, 50],
      [60, 60],
    ]),
  ).toEqual(new Array<string>(5).fill("000000"));
});
