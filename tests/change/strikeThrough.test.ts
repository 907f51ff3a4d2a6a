import { describe, expect, test } from "vitest";
import { strikeThrough, type SideMap } from "../../src/change/strikeThrough.ts";
import { seededRandom } from "../../src/numeric/random.ts";

const COLUMNS = 60;
const ROWS = 84;

/** A picture of blots about 5 cells wide. */
function picture(seed: number): Float32Array {
  const random = seededRandom(seed);
  const blots = Array.from({ length: 45 }, () => ({
    x: COLUMNS * random.uniform(),
    y: ROWS * random.uniform(),
    dark: 40 * random.uniform(),
  }));
  return Float32Array.from({ length: COLUMNS * ROWS }, (_, i) =>
    blots.reduce(
      (sum, { x, y, dark }) =>
        sum +
        dark * Math.exp(-((x - (i % COLUMNS)) ** 2 + (y - Math.floor(i / COLUMNS)) ** 2) / 12),
      0,
    ),
  );
}

function side(value: (i: number) => number): SideMap {
  return {
    width: COLUMNS,
    height: ROWS,
    values: Float32Array.from({ length: COLUMNS * ROWS }, (_, i) => value(i)),
  };
}

describe("strike-through", () => {
  const recto = picture(1);
  const front = side((i) => recto[i]);

  /** Mirrored recto moved by 2 cells right and 1 down, so much of it, in noise. */
  function verso(share: number, seed: number): SideMap {
    const random = seededRandom(seed);
    return side((i) => {
      const x = (i % COLUMNS) - 2;
      const y = Math.floor(i / COLUMNS) - 1;
      const from = x < 0 || y < 0 ? NaN : y * COLUMNS + COLUMNS - 1 - x;
      return share * recto[from] + 0.3 * random.normal();
    });
  }

  test("a twentieth of the picture is found on the back, where it lies", () => {
    const result = strikeThrough(front, verso(0.05, 2));
    expect(result?.shown).toBe(true);
    expect(result?.shift).toEqual([2, 1]);
    expect(result?.correlation).toBeGreaterThan(0.3);
  });

  test.each([11, 12, 13, 14, 15, 16, 17, 18])("noise alone shows nothing, draw %d", (seed) => {
    expect(strikeThrough(front, verso(0, seed))?.shown).toBe(false);
  });

  test.each([21, 22, 23, 24, 25, 26])("another picture shows nothing, draw %d", (seed) => {
    const other = picture(seed);
    expect(
      strikeThrough(
        front,
        side((i) => 0.05 * other[i]),
      )?.shown,
    ).toBe(false);
  });

  test("the picture unmirrored is no strike-through", () => {
    expect(
      strikeThrough(
        front,
        side((i) => 0.05 * recto[i]),
      )?.shown,
    ).toBe(false);
  });

  test("two sides that share too little give no answer", () => {
    const bare = side((i) => (i % COLUMNS < 5 ? 1 + i : NaN));
    expect(strikeThrough(front, bare)).toBeNull();
  });

  test("lattices of two sizes are refused", () => {
    expect(() =>
      strikeThrough(front, { width: 2, height: 1, values: Float32Array.of(1, 2) }),
    ).toThrow(RangeError);
  });
});
