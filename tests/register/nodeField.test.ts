import { expect, test } from "vitest";
import { seededRandom } from "../../src/numeric/random.ts";
import { displacementAt, rowSampler, type NodeField } from "../../src/register/nodeField.ts";

function field(columns: number, rows: number, dx: (c: number, r: number) => number): NodeField {
  const at = (i: number): number => dx(i % columns, Math.floor(i / columns));
  return {
    width: columns,
    height: rows,
    left: 10,
    top: 20,
    mmPerCell: 6,
    dx: Float64Array.from({ length: columns * rows }, (_, i) => at(i)),
    dy: Float64Array.from({ length: columns * rows }, (_, i) => -2 * at(i)),
  };
}

test("nodes are met exactly, and a plane inside between them", () => {
  const random = seededRandom(2);
  const rough = field(6, 5, () => random.normal());
  expect([...displacementAt(rough, 10 + 6 * 3, 20 + 6 * 2)]).toEqual([rough.dx[15], rough.dy[15]]);
  const plane = field(6, 5, (c, r) => 1 + c - 3 * r);
  const [x] = displacementAt(plane, 10 + 6 * 2.3, 20 + 6 * 1.6);
  expect(x).toBeCloseTo(1 + 2.3 - 3 * 1.6, 12);
});

test("beyond the rim the rim's displacement holds", () => {
  const plane = field(6, 5, (c, r) => 1 + c - 3 * r);
  expect(displacementAt(plane, -50, -50)[0]).toBe(1);
  expect(displacementAt(plane, 500, 20)[0]).toBe(6);
});

test.each([
  [6, 5],
  [2, 2],
  [1, 1],
])("rows of a field of %i x %i are sampled as single places", (columns, rows) => {
  const random = seededRandom(2);
  const rough = field(columns, rows, () => random.normal());
  const xs = Float64Array.from({ length: 60 }, (_, i) => i);
  const outX = new Float64Array(60);
  const outY = new Float64Array(60);
  const sample = rowSampler(rough, xs);
  for (const y of [0, 20, 23.7, 31, 44, 60]) {
    sample(y, outX, outY);
    xs.forEach((x, i) => {
      const [dx, dy] = displacementAt(rough, x, y);
      expect(outX[i]).toBeCloseTo(dx, 12);
      expect(outY[i]).toBeCloseTo(dy, 12);
    });
  }
});
