import type { ChannelTables } from "../../src/raster/channelTables.ts";
import { describe, expect, test } from "vitest";
import { decodeSrgb, encodeSrgb } from "../../src/colour/srgb.ts";
import { seededRandom } from "../../src/numeric/random.ts";
import { linearPlanes } from "../../src/raster/linearPlanes.ts";
import type { Raster } from "../../src/raster/raster.ts";
import { srgbTables } from "../../src/raster/srgbTables.ts";
import { noiseBytes, noiseWords } from "./bytes.ts";

function noise(width: number, height: number, bitDepth: 8 | 16): Raster {
  const length = 3 * width * height;
  const data = bitDepth === 8 ? new Uint8Array(noiseBytes(length, 31)) : noiseWords(length, 32);
  return { width, height, bitDepth, data };
}

/** Tables of seeded values that differ from channel to channel. */
function seededTables(bitDepth: 8 | 16): ChannelTables {
  const random = seededRandom(33);
  const table = (): Float64Array =>
    Float64Array.from({ length: 2 ** bitDepth }, () => random.uniform());
  return [table(), table(), table()];
}

/** The mean over a cell from its definition: each pixel counts by the area it shares with the cell. */
function directMean(
  { width, height, data }: Raster,
  table: ArrayLike<number>,
  channel: number,
  [left, right]: readonly [number, number],
  [top, bottom]: readonly [number, number],
): number {
  let sum = 0;
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const across = Math.min(right, x + 1) - Math.max(left, x);
      const down = Math.min(bottom, y + 1) - Math.max(top, y);
      if (across > 0 && down > 0) sum += across * down * table[data[3 * (y * width + x) + channel]];
    }
  return sum / ((right - left) * (bottom - top));
}

describe("area means", () => {
  test.each([
    [24, 18, 3, 2, 8],
    [24, 18, 3, 2, 16],
    [25, 19, 4, 4, 8], // a rest at the right and the bottom
    [31, 23, 2.7, 3.1, 8],
    [31, 23, 1.25, 1.5, 16],
    [31, 23, 31 / 7, 23 / 9, 8], // steps that should come out whole, but for rounding
    [10, 7, 1, 1, 8],
    [10, 7, 10, 7, 16],
    [10, 7, 9.99, 6.5, 8],
  ] as const)("%i x %i pixels, cells of %f x %f, %i bit", (width, height, stepX, stepY, bits) => {
    const raster = noise(width, height, bits);
    const tables = seededTables(bits);
    const planes = linearPlanes(raster, tables, stepX, stepY);
    expect(planes).toMatchObject({ stepX, stepY });
    expect(planes.width).toBe(Math.floor(width / stepX + 1e-9));
    expect(planes.height).toBe(Math.floor(height / stepY + 1e-9));
    planes.channels.forEach((plane, channel) => {
      expect(plane).toHaveLength(planes.width * planes.height);
      for (let row = 0; row < planes.height; row++)
        for (let column = 0; column < planes.width; column++) {
          const expected = directMean(
            raster,
            tables[channel],
            channel,
            [column * stepX, (column + 1) * stepX],
            [row * stepY, (row + 1) * stepY],
          );
          // Values below 1 in single precision: half a unit in the last place is 3e-8.
          expect(Math.abs(plane[row * planes.width + column] - expected)).toBeLessThan(6e-8);
        }
    });
  });

  test("each cell lies where the relation X = (x + 0.5) step - 0.5 says", () => {
    // A ramp along x and one along y: their mean over an area is their value at its centre.
    const width = 240;
    const height = 200;
    const data = new Uint8Array(3 * width * height);
    for (let y = 0; y < height; y++)
      for (let x = 0; x < width; x++) data.set([x, y, 0], 3 * (y * width + x));
    const identity = Float64Array.from({ length: 256 }, (_, code) => code);
    const planes = linearPlanes(
      { width, height, bitDepth: 8, data },
      [identity, identity, identity],
      6.25,
      4.5,
    );
    for (let row = 0; row < planes.height; row++)
      for (let column = 0; column < planes.width; column++) {
        const at = row * planes.width + column;
        // A pixel split by a border counts with its one value on both sides: up to an eighth over the step from its place.
        const offX = planes.channels[0][at] - ((column + 0.5) * 6.25 - 0.5);
        const offY = planes.channels[1][at] - ((row + 0.5) * 4.5 - 0.5);
        expect(Math.abs(offX)).toBeLessThan(0.125 / 6.25 + 1e-4);
        expect(Math.abs(offY)).toBeLessThan(0.125 / 4.5 + 1e-4);
      }
  });

  test("an even picture stays exactly even, and NaN in a table stays NaN", () => {
    const raster: Raster = { width: 50, height: 40, bitDepth: 8, data: new Uint8Array(6000).fill(90) }; // prettier-ignore
    const table = new Float64Array(256).fill(0.25);
    for (const plane of linearPlanes(raster, [table, table, table], 3.3).channels)
      for (const value of plane) expect(value).toBeCloseTo(0.25, 7);
    const data = raster.data.slice();
    data[0] = 255;
    table[255] = NaN;
    const [r, g] = linearPlanes({ ...raster, data }, [table, table, table], 3.3).channels;
    expect(r[0]).toBeNaN();
    expect(r[1]).toBeCloseTo(0.25, 7);
    expect(g[0]).toBeCloseTo(0.25, 7);
    // The code lies in the bottom row of its cells: those below them don't hold it.
    const low = raster.data.slice();
    low[3 * 50 * 3] = 255;
    for (const [stepX, stepY] of [
      [4, 4],
      [3.3, 4],
    ]) {
      const cells = linearPlanes({ ...raster, data: low }, [table, table, table], stepX, stepY);
      expect(cells.channels[0][0]).toBeNaN();
      expect(cells.channels[0][cells.width]).toBeCloseTo(0.25, 7);
    }
  });

  test("wrong steps and tables are refused", () => {
    const raster = noise(10, 7, 8);
    const tables = srgbTables(8);
    for (const [stepX, stepY] of [
      [0.5, 2],
      [2, NaN],
      [11, 2],
      [2, 8],
    ])
      expect(() => linearPlanes(raster, tables, stepX, stepY)).toThrow(RangeError);
    expect(() => linearPlanes(raster, srgbTables(16), 2)).toThrow(RangeError);
  });
});

describe("averaging light, not codes", () => {
  test("checkerboard of single pixels 0/255: 188, not 128 (IEC 61966-2-1)", () => {
    for (const [bitDepth, high] of [
      [8, 255],
      [16, 65535],
    ] as const) {
      const data = Array.from({ length: 3 * 64 * 64 }, (_, i) => {
        const pixel = Math.floor(i / 3);
        return (pixel + Math.floor(pixel / 64)) % 2 === 0 ? 0 : high;
      });
      const typed = bitDepth === 8 ? Uint8Array.from(data) : Uint16Array.from(data);
      const raster: Raster = { width: 64, height: 64, bitDepth, data: typed };
      for (const plane of linearPlanes(raster, srgbTables(bitDepth), 4).channels)
        for (const value of plane) expect(Math.round(255 * encodeSrgb(value))).toBe(188);
    }
  });

  test("a halftone of half coverage has the mean of its ink and its paper", () => {
    const paper = [235, 224, 196];
    const ink = [190, 40, 60];
    // Dots in a square screen of 8 pixels: 32 of 64 pixels inked in every period.
    const inked = (x: number, y: number): boolean => x % 8 < 4 === y % 8 < 4;
    const size = 96;
    const data = new Uint8Array(3 * size * size);
    for (let y = 0; y < size; y++)
      for (let x = 0; x < size; x++) data.set(inked(x, y) ? ink : paper, 3 * (y * size + x));
    const { channels } = linearPlanes(
      { width: size, height: size, bitDepth: 8, data },
      srgbTables(8),
      24,
    );
    channels.forEach((plane, channel) => {
      const light = (code: number): number => decodeSrgb(code / 255);
      const expected = (light(ink[channel]) + light(paper[channel])) / 2;
      // Single precision of values below 1.
      for (const value of plane) expect(Math.abs(value - expected)).toBeLessThan(6e-8);
    });
  });

  test("the tables are the inverse sRGB curve (IEC 61966-2-1) over the whole range of codes", () => {
    for (const bitDepth of [8, 16] as const) {
      const [table, ...others] = srgbTables(bitDepth);
      expect(table).toHaveLength(2 ** bitDepth);
      expect(table[0]).toBe(0);
      expect(table.at(-1)).toBe(1);
      expect(others).toEqual([table, table]);
      for (let code = 0; code < table.length; code += 255)
        // Twelve digits: double precision through two powers.
        expect(encodeSrgb(table[code]) * (2 ** bitDepth - 1)).toBeCloseTo(code, 8);
    }
  });
});
