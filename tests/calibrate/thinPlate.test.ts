import { expect, test } from "vitest";
import { fitThinPlate } from "../../src/calibrate/fitThinPlate.ts";
import { thinPlateAt } from "../../src/calibrate/thinPlateAt.ts";
import type { Triple } from "../../src/numeric/triple.ts";
import { seededRandom } from "../../src/numeric/random.ts";

const random = seededRandom(11);
const nodes = Array.from({ length: 24 }, (): Triple => [
  20 + 70 * random.uniform(),
  80 * random.uniform() - 40,
  80 * random.uniform() - 40,
]);
const ones = nodes.map(() => 1);

test("without smoothing it passes through every node", () => {
  const to = nodes.map(([L, a, b]): Triple => [L + 3 * Math.sin(a / 9), a * 1.1, b - 2]);
  const plate = fitThinPlate(nodes, to, ones, 0);
  nodes.forEach((node, i) => {
    thinPlateAt(plate, node).forEach((value, k) => {
      expect(value).toBeCloseTo(to[i][k], 9);
    });
  });
});

test("an affine map is kept as it is, whatever the smoothing", () => {
  const map = ([L, a, b]: Triple): Triple => [0.9 * L + 4, a + 0.1 * b, 1.2 * b - 0.05 * L];
  const plate = fitThinPlate(nodes, nodes.map(map), ones, 40);
  const at: Triple = [55, 12, -30];
  thinPlateAt(plate, at).forEach((value, k) => {
    expect(value).toBeCloseTo(map(at)[k], 9);
  });
});

test("the sign of the kernel: bending costs, so a bump is smoothed down and never overshot", () => {
  // Minus the distance is conditionally positive definite: w'Kw > 0 for the weights of any bent surface, and the smoothed surface
  // stays between the flat one and the bump. With the other sign the system still has an answer, but w'Kw < 0 and this fails.
  const bumped = nodes.map((node, i): Triple => [node[0] + (i === 5 ? 10 : 0), node[1], node[2]]);
  for (const smoothing of [1, 10, 40, 160]) {
    const plate = fitThinPlate(nodes, bumped, ones, smoothing);
    let energy = 0;
    nodes.forEach((p, i) => {
      nodes.forEach((q, j) => {
        const distance = Math.hypot(p[0] - q[0], p[1] - q[1], p[2] - q[2]);
        energy -= plate.weights[i][0] * distance * plate.weights[j][0];
      });
    });
    expect(energy).toBeGreaterThan(0);
    const rise = thinPlateAt(plate, nodes[5])[0] - nodes[5][0];
    expect(rise).toBeGreaterThan(0);
    expect(rise).toBeLessThan(10);
  }
});

test("a node that counts twice is a node given twice", () => {
  const to = nodes.map(([L, a, b], i): Triple => [L + Math.sin(i), a, b + Math.cos(i)]);
  const counted = fitThinPlate(nodes, to, ones.map((one, i) => (i === 3 ? 2 : one)), 40); // prettier-ignore
  const near = nodes[3].map((value) => value + 1e-7) as unknown as Triple;
  const given = fitThinPlate([...nodes, near], [...to, to[3]], [...ones, 1], 40);
  const at: Triple = [60, 5, 5];
  thinPlateAt(counted, at).forEach((value, k) => {
    // The two nodes of the second fit lie 1e-7 apart.
    expect(value).toBeCloseTo(thinPlateAt(given, at)[k], 5);
  });
});
