import { expect, test } from "vitest";
import { seededRandom } from "../../src/numeric/random.ts";
import { components } from "../../src/grid/components.ts";

function parse(rows: readonly string[]): [Uint8Array, number, number] {
  return [Uint8Array.from(rows.join(""), Number), rows[0].length, rows.length];
}

test("a label's pieces are numbered in raster order; sides join, corners do not; 0 is nothing", () => {
  const { piece, label, cells } = components(
    ...parse([
      "11022", //
      "00120",
      "11122",
    ]),
  );
  expect(Array.from(piece)).toEqual([0, 0, -1, 1, 1, -1, -1, 2, 1, -1, 2, 2, 2, 1, 1]);
  expect(Array.from(label)).toEqual([1, 2, 1]);
  expect(Array.from(cells)).toEqual([2, 5, 4]);
});

test("a spiral is one piece", () => {
  const { cells } = components(
    ...parse([
      "1111111", //
      "0000001",
      "1111101",
      "1000101",
      "1011101",
      "1000001",
      "1111111",
    ]),
  );
  expect(Array.from(cells)).toEqual([7 + 1 + 6 + 3 + 5 + 2 + 7]);
});

test("equals a flood fill on noise", () => {
  const random = seededRandom(5);
  const width = 40;
  const height = 31;
  const labels = Uint8Array.from({ length: width * height }, () => random.below(3));
  const { piece } = components(labels, width, height);
  const expected = new Int32Array(labels.length).fill(-1);
  let next = 0;
  for (let start = 0; start < labels.length; start++) {
    if (labels[start] === 0 || expected[start] >= 0) continue;
    const stack = [start];
    expected[start] = next;
    for (let i = stack.pop(); i !== undefined; i = stack.pop()) {
      const x = i % width;
      const around = [x > 0 ? i - 1 : -1, x < width - 1 ? i + 1 : -1, i - width, i + width];
      for (const j of around)
        if (j >= 0 && j < labels.length && labels[j] === labels[i] && expected[j] < 0) {
          expected[j] = next;
          stack.push(j);
        }
    }
    next++;
  }
  expect(piece).toEqual(expected);
});
