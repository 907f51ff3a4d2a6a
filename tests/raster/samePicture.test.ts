import { describe, expect, test } from "vitest";
import { seededRandom } from "../../src/numeric/random.ts";
import type { Raster } from "../../src/raster/raster.ts";
import { refuseSamePicture } from "../../src/raster/refuseSamePicture.ts";
import { rowSource } from "../../src/raster/rowSource.ts";
import { samePicture } from "../../src/raster/samePicture.ts";
import { turnedOver } from "../../src/raster/turnedOver.ts";

const [WIDTH, HEIGHT] = [23, 150];

function words(seed: number): Raster {
  const random = seededRandom(seed);
  const data = Uint16Array.from({ length: 3 * WIDTH * HEIGHT }, () => random.below(65536));
  return { width: WIDTH, height: HEIGHT, bitDepth: 16, data };
}

const bytes = (raster: Raster, toByte: (word: number) => number): Raster => ({
  ...raster,
  bitDepth: 8,
  data: Uint8Array.from(raster.data, toByte),
});

const same = (one: Raster, other: Raster): boolean =>
  samePicture(rowSource(one), rowSource(other)) && samePicture(rowSource(other), rowSource(one));

const picture = words(1);

describe("the same picture", () => {
  test("is itself, also with 8 bits cut or rounded from 16", () => {
    expect(same(picture, { ...picture, data: picture.data.slice() })).toBe(true);
    expect(
      same(
        picture,
        bytes(picture, (word) => word >> 8),
      ),
    ).toBe(true);
    expect(
      same(
        picture,
        bytes(picture, (word) => Math.round(word / 257)),
      ),
    ).toBe(true);
  });

  test("is not: another exposure, one code in the last row, another size of as many pixels", () => {
    expect(same(picture, words(2))).toBe(false);
    const last = picture.data.slice();
    last[last.length - 1] ^= 1;
    expect(same(picture, { ...picture, data: last })).toBe(false);
    expect(same(picture, { ...picture, width: HEIGHT, height: WIDTH })).toBe(false);
    const eight = bytes(picture, (word) => word >> 8);
    const off = eight.data.slice();
    off[700] = off[700] > 100 ? off[700] - 3 : off[700] + 3;
    expect(same(picture, { ...eight, data: off })).toBe(false);
  });

  test("turned over twice it is, turned over once it is not", () => {
    expect(same(picture, turnedOver(picture))).toBe(false);
    expect(same(picture, turnedOver(turnedOver(picture)))).toBe(true);
    expect([...turnedOver(picture).data.subarray(0, 3)]).toEqual([...picture.data.slice(-3)]);
  });
});

test("the refusal names both roles, files and pages", () => {
  const one = { role: "the before scan", file: "a.tif", page: 1, pixels: rowSource(picture) };
  const other = { role: "the after scan", file: "b.png", pixels: rowSource(picture) };
  expect(() => {
    refuseSamePicture(one, other, "Give another.");
  }).toThrow(
    expect.objectContaining({
      code: "same-picture",
      exitStatus: 4,
      remedy: "Give another.",
      message:
        "Expected two pictures for the before scan and the after scan, received page 1 of a.tif and b.png, which hold the same pixels.",
    }) as Error,
  );
  expect(() => {
    refuseSamePicture(one, { ...other, pixels: rowSource(words(3)) }, "");
  }).not.toThrow();
});
