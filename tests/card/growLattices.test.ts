import type { Quadrilateral } from "../../src/vision/quadrilateral.ts";
import type { Point } from "../../src/numeric/point.ts";
import { expect, test } from "vitest";
import { growLattices } from "../../src/card/growLattices.ts";
import { applyHomography } from "../../src/card/homography.ts";
import type { Matrix3 } from "../../src/numeric/matrix3.ts";
import { seededRandom } from "../../src/numeric/random.ts";

function quadAt(H: Matrix3, column: number, row: number, share: number): Quadrilateral {
  const half = share / 2;
  const corners = [
    applyHomography(H, [column - half, row - half]),
    applyHomography(H, [column + half, row - half]),
    applyHomography(H, [column + half, row + half]),
    applyHomography(H, [column - half, row + half]),
  ] as const;
  const sides = corners.map(([x, y], i) => Math.hypot(corners[(i + 1) % 4][0] - x, corners[(i + 1) % 4][1] - y)); // prettier-ignore
  const side = sides.reduce((sum, value) => sum + value, 0) / 4;
  return { corners, centre: applyHomography(H, [column, row]), area: side * side, side };
}

const PERSPECTIVE: Matrix3 = [60, -20, 300, 25, 55, 100, 0.05, 0.06, 1];

const card = (share: number, skip: readonly number[] = []): Quadrilateral[] =>
  Array.from({ length: 24 }, (_, i) => quadAt(PERSPECTIVE, i % 6, Math.floor(i / 6), share)).filter(
    (_, i) => !skip.includes(i),
  );

/** Whether (i, j) of the nodes are (column, row) of the card up to a shift and quarter turns, never a mirror image. */
function isTurnedCard(nodes: readonly { i: number; j: number; centre: Point }[]): boolean {
  const true_ = nodes.map(({ centre }) => {
    for (let n = 0; n < 24; n++) {
      const place: Point = [n % 6, Math.floor(n / 6)];
      const [x, y] = applyHomography(PERSPECTIVE, place);
      if (Math.hypot(x - centre[0], y - centre[1]) < 1e-9) return place;
    }
    return null;
  });
  return [[1, 0], [0, 1], [-1, 0], [0, -1]].some(([c, s]) => {
    const shifts = nodes.map(({ i, j }, k) => {
      const place = true_[k];
      return place === null ? "none" : `${c * i - s * j - place[0]},${s * i + c * j - place[1]}`;
    });
    return new Set(shifts).size === 1 && shifts[0] !== "none";
  }); // prettier-ignore
}

test.each([0.7, 0.8, 0.9])("a card in perspective, patches of %d of the pitch", (share) => {
  const lattices = growLattices(card(share));
  expect(lattices[0]).toHaveLength(24);
  expect(isTurnedCard(lattices[0])).toBe(true);
});

test("patches missing here and there, clutter around", () => {
  const random = seededRandom(5);
  const clutter = Array.from({ length: 80 }, (): Quadrilateral => {
    const size = 10 + 40 * random.uniform();
    const at: Matrix3 = [size, 0, 700 * random.uniform(), 0, size, 500 * random.uniform(), 0, 0, 1];
    return quadAt(at, 0, 0, 1);
  });
  const seen = card(0.85, [2, 10, 13, 21]);
  const lattices = growLattices([...clutter, ...seen]);
  // Clutter makes lattices of its own, and one of its shapes may take an empty place: one lattice holds all that was seen.
  const ours = lattices.map((nodes) =>
    nodes.filter(({ centre }) => seen.some((quad) => quad.centre === centre)),
  );
  const best = ours.reduce((most, nodes) => (nodes.length > most.length ? nodes : most));
  expect(best.length).toBeGreaterThanOrEqual(seen.length - 1);
  expect(isTurnedCard(best)).toBe(true);
});

test("the same patch seen twice makes no second lattice", () => {
  const lattices = growLattices([...card(0.85), ...card(0.8)]);
  expect(lattices).toHaveLength(1);
});

test("six patches, a single row, or nothing make no lattice", () => {
  expect(growLattices([])).toEqual([]);
  expect(growLattices(card(0.85).slice(0, 6))).toEqual([]);
  const row = Array.from({ length: 12 }, (_, i) =>
    quadAt([40, 0, 50, 0, 40, 50, 0, 0, 1], i, 0, 0.85),
  );
  expect(growLattices(row)).toEqual([]);
});
