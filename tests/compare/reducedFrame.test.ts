import { expect, test } from "vitest";
import type { Correction } from "../../src/calibrate/correction.ts";
import { decodeSrgb } from "../../src/colour/srgb.ts";
import { type Frame } from "../../src/compare/openFrame.ts";
import { reducedFrame } from "../../src/compare/reducedFrame.ts";
import { rowSource } from "../../src/raster/rowSource.ts";

const PLAIN: Correction = {
  model: "3x3",
  curves: [{ kind: "identity" }, { kind: "power", offset: 0, exponent: 2 }, { kind: "identity" }],
  matrix: [1, 0, 0, 0, 1, 0, 0, 0, 1],
  offset: [0, 0, 0],
  plate: null,
};

/** Columns alternate between two codes. */
function frame(width: number, height: number, codes: readonly [number, number]): Frame {
  const data = Uint8Array.from(
    { length: 3 * width * height },
    (_, i) => codes[Math.floor(i / 3) % 2],
  );
  return {
    pixels: { ...rowSource({ width, height, bitDepth: 8, data }), release: () => undefined },
  } as Partial<Frame> as Frame;
}

test("600 dpi to 150: cells of four pixels, means of linear light after the tone curve", () => {
  const planes = reducedFrame(frame(40, 22, [255, 0]), PLAIN, 600);
  expect([planes.width, planes.height, planes.stepX, planes.stepY]).toEqual([10, 5, 4, 4]);
  for (const plane of planes.channels) expect(plane[7]).toBeCloseTo(0.5, 6);
  const [r, g] = reducedFrame(frame(40, 20, [200, 200]), PLAIN, 600).channels;
  expect(r[3]).toBeCloseTo(decodeSrgb(200 / 255), 6);
  expect(g[3]).toBeCloseTo(decodeSrgb(200 / 255) ** 2, 6);
});

test("a step need not be whole, and a coarse scan keeps its own pixels", () => {
  expect(reducedFrame(frame(40, 20, [9, 9]), PLAIN, 200).stepX).toBeCloseTo(200 / 150, 12);
  const own = reducedFrame(frame(40, 20, [9, 9]), PLAIN, 110);
  expect([own.width, own.height, own.stepX]).toEqual([40, 20, 1]);
});
