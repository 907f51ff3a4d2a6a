import { describe, expect, test } from "vitest";
import { seededRandom } from "../../src/numeric/random.ts";
import type { NodeField } from "../../src/register/nodeField.ts";
import { plateStencils } from "../../src/register/plateStencils.ts";
import { positionSigma, radialQuantile } from "../../src/register/positionSigma.ts";
import { relaxNodes } from "../../src/register/relaxNodes.ts";

const [COLUMNS, ROWS] = [24, 18];
const COUNT = COLUMNS * ROWS;

const flat: NodeField = {
  width: COLUMNS,
  height: ROWS,
  left: 0,
  top: 0,
  mmPerCell: 6,
  dx: new Float64Array(COUNT),
  dy: new Float64Array(COUNT),
};

/** Cockle of 100 mm wavelength, peak 1 mm. */
const truth = (i: number): [number, number] => {
  const x = 6 * (i % COLUMNS);
  const y = 6 * Math.floor(i / COLUMNS);
  const k = (2 * Math.PI) / 100;
  return [Math.sin(k * x) * Math.cos(k * y), Math.cos(k * (x + y) + 1)];
};

interface Measured {
  dx: Float64Array;
  dy: Float64Array;
  xx: Float64Array;
  xy: Float64Array;
  yy: Float64Array;
}

function measured(information: (i: number) => [number, number, number]): Measured {
  const out: Measured = {
    dx: Float64Array.from({ length: COUNT }, (_, i) => truth(i)[0]),
    dy: Float64Array.from({ length: COUNT }, (_, i) => truth(i)[1]),
    xx: new Float64Array(COUNT),
    xy: new Float64Array(COUNT),
    yy: new Float64Array(COUNT),
  };
  for (let i = 0; i < COUNT; i++) [out.xx[i], out.xy[i], out.yy[i]] = information(i);
  return out;
}

function largestError({ dx, dy }: NodeField): number {
  return Math.max(
    ...Array.from({ length: COUNT }, (_, i) => {
      const [x, y] = truth(i);
      return Math.hypot(dx[i] - x, dy[i] - y);
    }),
  );
}

describe("relaxation", () => {
  test("edges alone, each telling across itself only, give the whole field", () => {
    const random = seededRandom(6);
    const tiles = measured(() => {
      const angle = Math.PI * random.uniform();
      const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
      return [0.9 * cos * cos, 0.9 * cos * sin, 0.9 * sin * sin];
    });
    // Along its edge a tile says anything: a millimetre off.
    for (let i = 0; i < COUNT; i++) {
      const angle = 0.5 * Math.atan2(2 * tiles.xy[i], tiles.xx[i] - tiles.yy[i]);
      const slip = 2 * random.uniform() - 1;
      tiles.dx[i] -= slip * Math.sin(angle);
      tiles.dy[i] += slip * Math.cos(angle);
    }
    const { field } = relaxNodes(flat, tiles, 0.5);
    // What a tile doesn't tell comes from its neighbours; at a corner few are near.
    expect(largestError(field)).toBeLessThan(0.15);
  });

  test("half of the nodes see nothing and are bridged", () => {
    const tiles = measured((i) =>
      (i + Math.floor(i / COLUMNS)) % 2 === 0 ? [0.9, 0, 0.9] : [0, 0, 0],
    );
    const { field, trust } = relaxNodes(flat, tiles, 0.5);
    // A corner without a tile of its own runs on straight: half the cockle's curvature over a spacing, 0.07 mm.
    expect(largestError(field)).toBeLessThan(0.09);
    expect(trust[0]).toBeGreaterThan(1.5);
    expect(trust[1]).toBe(0);
  });

  test("a tile that fell on the wrong period loses its trust", () => {
    const tiles = measured(() => [0.9, 0, 0.9]);
    const wrong = 8 * COLUMNS + 11;
    tiles.dx[wrong] += 0.6;
    const { trust } = relaxNodes(flat, tiles, 0.2);
    expect(trust[wrong]).toBeLessThan(0.2);
    expect(trust[wrong + 3]).toBeGreaterThan(1.5);
  });

  test("nothing measured leaves a straight field as it is", () => {
    const straight: NodeField = {
      ...flat,
      dx: Float64Array.from({ length: COUNT }, (_, i) => 0.01 * (i % COLUMNS)),
      dy: Float64Array.from({ length: COUNT }, (_, i) => 0.02 * Math.floor(i / COLUMNS)),
    };
    const { field } = relaxNodes(
      straight,
      measured(() => [0, 0, 0]),
      0.5,
    );
    field.dx.forEach((x, i) => {
      expect(x).toBeCloseTo(straight.dx[i], 10);
    });
  });
});

describe("stencils of a plate", () => {
  const { starts, nodes, weights } = plateStencils(7, 6);
  const stencil = (i: number): Map<number, number> =>
    new Map(
      Array.from(nodes.subarray(starts[i], starts[i + 1]), (j, k) => [
        j - i,
        weights[starts[i] + k],
      ]),
    );

  test("inside: (8 N - 2 D - S) / 20", () => {
    const inner = stencil(2 * 7 + 3);
    expect(inner.size).toBe(12);
    for (const j of [-1, 1, -7, 7]) expect(inner.get(j)).toBeCloseTo(8 / 20, 12);
    for (const j of [-8, -6, 6, 8]) expect(inner.get(j)).toBeCloseTo(-2 / 20, 12);
    for (const j of [-2, 2, -14, 14]) expect(inner.get(j)).toBeCloseTo(-1 / 20, 12);
  });

  test("everywhere a plane is predicted exactly", () => {
    for (let i = 0; i < 42; i++) {
      let predicted = 0;
      for (const [offset, weight] of stencil(i)) {
        const j = i + offset;
        predicted += weight * (3 + 2 * (j % 7) - Math.floor(j / 7));
      }
      expect(predicted).toBeCloseTo(3 + 2 * (i % 7) - Math.floor(i / 7), 10);
    }
  });

  test("too narrow to bend", () => {
    expect(plateStencils(1, 1).weights).toHaveLength(0);
    const pair = plateStencils(2, 1);
    expect([...pair.weights].every(Number.isFinite)).toBe(true);
  });
});

describe("position uncertainty", () => {
  const inside = new Uint8Array(COUNT).fill(1);
  /** Noise of 0.02 mm a tile; nothing to see in a square of five by five nodes. */
  const random = seededRandom(12);
  const hidden = (i: number): boolean =>
    Math.abs((i % COLUMNS) - 11) < 3 && Math.abs(Math.floor(i / COLUMNS) - 8) < 3;
  const tiles = measured((i) => (hidden(i) ? [0, 0, 0] : [0.9, 0, 0.9]));
  for (let i = 0; i < COUNT; i++) {
    tiles.dx[i] += 0.02 * random.normal();
    tiles.dy[i] += 0.02 * random.normal();
  }
  const { field, information } = relaxNodes(flat, tiles, 0.5);
  const sigma = positionSigma(field, information, tiles, inside);

  test("is that of the tiles where they see something", () => {
    const z: number[] = [];
    for (let i = 0; i < COUNT; i++)
      if (!hidden(i)) {
        const [x, y] = truth(i);
        z.push((field.dx[i] - x) / sigma[i], (field.dy[i] - y) / sigma[i]);
      }
    const rms = Math.sqrt(z.reduce((sum, v) => sum + v * v, 0) / z.length);
    // Noise shared by neighbours is allowed for (1.45) and not there; the cockle bends beside it.
    expect(rms).toBeGreaterThan(0.4);
    expect(rms).toBeLessThan(1.1);
  });

  test("is larger, and finite, where nothing is seen between places where something is", () => {
    const middle = 8 * COLUMNS + 11;
    expect(sigma[middle]).toBeGreaterThan(1.5 * sigma[4 * COLUMNS + 4]);
    expect(sigma[middle]).toBeLessThan(0.5);
    const [x, y] = truth(middle);
    expect(Math.hypot(field.dx[middle] - x, field.dy[middle] - y)).toBeLessThan(3 * sigma[middle]);
  });

  test("tiles that contradict each other are believed less", () => {
    const wild = { ...tiles, dx: tiles.dx.slice() };
    for (let i = 0; i < COUNT; i++) if (i % COLUMNS > 17) wild.dx[i] += 0.2 * random.normal();
    const loose = positionSigma(field, information, wild, inside);
    expect(loose[9 * COLUMNS + 21]).toBeGreaterThan(1.7 * sigma[9 * COLUMNS + 21]);
    expect(loose[9 * COLUMNS + 3]).toBeCloseTo(sigma[9 * COLUMNS + 3], 3);
  });

  test("quantile of the distance of places of one size is Rayleigh's", () => {
    expect(radialQuantile([0.1, 0.1], 0.95)).toBeCloseTo(0.1 * Math.sqrt(-2 * Math.log(0.05)), 9);
    expect(radialQuantile([], 0.95)).toBeNaN();
  });
});
