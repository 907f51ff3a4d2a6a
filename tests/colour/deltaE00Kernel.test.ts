import { describe, expect, test } from "vitest";
import { ciede2000 } from "../../src/colour/ciede2000.ts";
import { deltaE00Kernel } from "../../src/colour/deltaE00Kernel.ts";
import { deltaE00Tables } from "../../src/colour/deltaE00Tables.ts";
import { deltaE00Simd } from "../../src/colour/simd/deltaE00Simd.ts";
import { startKernel } from "../../src/colour/simd/startKernel.ts";
import type { SimdKernel } from "../../src/colour/simd/startKernel.ts";
import type { Triple } from "../../src/numeric/triple.ts";
import { seededRandom } from "../../src/numeric/random.ts";
import { ICC_9, PUBLIC_DOMAIN_15, SHARMA_34 } from "../outside/tables/ciede2000-pairs.ts";

type Pair = readonly [reference: Triple, sample: Triple];

/** Colours as planes hold them: single precision, so that both formulas read the same numbers. */
const rounded = ([L, a, b]: Triple): Triple => [Math.fround(L), Math.fround(a), Math.fround(b)];

const planesOf = (colours: readonly Triple[]) =>
  [
    Float32Array.from(colours, (lab) => lab[0]),
    Float32Array.from(colours, (lab) => lab[1]),
    Float32Array.from(colours, (lab) => lab[2]),
  ] as const;

/** The tests themselves need vectors; `deltaE00Fallback.test.ts` tries the program without. */
function started(): SimdKernel {
  const kernel = startKernel();
  if (kernel === null) throw new Error("Expected a machine with vectors.");
  return kernel;
}
const simd = started();

type Kernel = typeof deltaE00Tables;
const KERNELS: readonly (readonly [name: string, kernel: Kernel])[] = [
  ["vectors", (...planes) => deltaE00Simd(simd, ...planes)],
  ["tables", deltaE00Tables],
];

function differences(kernel: Kernel, pairs: readonly Pair[]): Float32Array {
  return kernel(
    planesOf(pairs.map(([reference]) => reference)),
    planesOf(pairs.map(([, sample]) => sample)),
    new Uint8Array(pairs.length).fill(1),
    new Float32Array(pairs.length).fill(NaN),
  );
}

/** Degrees from the exactly opposite hue, where the formula jumps by up to 35. */
function fromOpposite([[, a1, b1], [, a2, b2]]: Pair): number {
  const C1 = Math.hypot(a1, b1);
  const C2 = Math.hypot(a2, b2);
  const sumOfUnits = Math.hypot(a1 / C1 + a2 / C2, b1 / C1 + b2 / C2);
  return (2 * Math.asin(Math.min(1, sumOfUnits / 2)) * 180) / Math.PI;
}

function worst(kernel: Kernel, pairs: readonly Pair[]): number {
  const measured = differences(kernel, pairs);
  return pairs.reduce(
    (most, [reference, sample], i) =>
      Math.max(most, Math.abs(measured[i] - ciede2000(reference, sample))),
    0,
  );
}

// Three to four times what a million pairs of each kind showed: single precision, steps of the tables, the series.
describe.each(KERNELS)("%s against the formula in double precision", (_name, kernel) => {
  const random = seededRandom(20);
  const colour = (): Triple =>
    rounded([100 * random.uniform(), 256 * random.uniform() - 128, 256 * random.uniform() - 128]);

  test("random pairs, opposite hues left out: within 0.001", () => {
    // The jump lies at the opposite of the hue after G has stretched a*, up to 11 degrees from that in CIELAB.
    const pairs: Pair[] = [];
    while (pairs.length < 100_000) {
      const pair = [colour(), colour()] as const;
      if (fromOpposite(stretched(pair)) > 0.1) pairs.push(pair);
    }
    expect(worst(kernel, pairs)).toBeLessThan(0.001);
  });

  test("near pairs, dE up to about 5: within 0.0001", () => {
    const pairs = Array.from({ length: 100_000 }, (): Pair => {
      const [L, a, b] = colour();
      const near = (value: number): number => value + 3 * (2 * random.uniform() - 1);
      return [[L, a, b], rounded([near(L), near(a), near(b)])];
    }).filter((pair) => fromOpposite(stretched(pair)) > 0.1);
    expect(worst(kernel, pairs)).toBeLessThan(0.0001);
  });

  test("near pairs of blues, where the rotation term counts most: within 0.0001", () => {
    const pairs = Array.from({ length: 30_000 }, (): Pair => {
      const hue = ((245 + 60 * random.uniform()) * Math.PI) / 180;
      const chroma = 120 * random.uniform();
      const lab = rounded([
        20 + 40 * random.uniform(),
        chroma * Math.cos(hue),
        chroma * Math.sin(hue),
      ]);
      const near = (value: number): number => value + 2 * random.normal();
      return [lab, rounded([near(lab[0]), near(lab[1]), near(lab[2])])];
    }).filter((pair) => fromOpposite(stretched(pair)) > 0.1);
    expect(worst(kernel, pairs)).toBeLessThan(0.0001);
  });

  test("greys and greys against colours", () => {
    const greys = Array.from({ length: 1000 }, (): Pair => [
      rounded([100 * random.uniform(), 0, 0]),
      colour(),
    ]);
    const pairs = [...greys, ...greys.map(([a, b]): Pair => [b, a])];
    expect(worst(kernel, pairs)).toBeLessThan(0.001);
    expect(
      worst(
        kernel,
        greys.map(([grey], i): Pair => [grey, [i / 10, 0, 0]]),
      ),
    ).toBeLessThan(0.001);
  });
});

/** Both colours with a* stretched by 1 + G, as the formula sees their hues. */
function stretched([[L1, a1, b1], [L2, a2, b2]]: Pair): Pair {
  const C7 = ((Math.hypot(a1, b1) + Math.hypot(a2, b2)) / 2) ** 7;
  const G = 0.5 * (1 - Math.sqrt(C7 / (C7 + 25 ** 7)));
  return [
    [L1, (1 + G) * a1, b1],
    [L2, (1 + G) * a2, b2],
  ];
}

test.each(KERNELS)(
  "%s: the published pairs (Sharma, Wu & Dalal 2005; ICC 2020; public-domain set), in both orders",
  (_name, kernel) => {
    for (const [L1, a1, b1, L2, a2, b2, printed] of [...SHARMA_34, ...ICC_9, ...PUBLIC_DOMAIN_15]) {
      const pair: Pair = [
        [L1, a1, b1],
        [L2, a2, b2],
      ];
      // Some pairs straddle the jump on purpose: single precision may fall on either side of it.
      if (fromOpposite(stretched(pair)) < 0.1) continue;
      const [there, back] = differences(kernel, [pair, [pair[1], pair[0]]]);
      // The tables' 1e-3, and single precision of inputs up to 128.
      expect(Math.abs(there - printed)).toBeLessThan(1.5e-3);
      expect(Math.abs(back - printed)).toBeLessThan(1.5e-3);
    }
  },
);

test.each(KERNELS)(
  "%s: a colour against itself is 0, also where rounding could go below",
  (_name, kernel) => {
    const random = seededRandom(21);
    const colours = Array.from({ length: 10_000 }, () =>
      rounded([100 * random.uniform(), 300 * random.normal(), 300 * random.normal()]),
    );
    expect(
      differences(
        kernel,
        colours.map((lab) => [lab, lab]),
      ).every((difference) => difference === 0),
    ).toBe(true);
  },
);

test.each(KERNELS)(
  "%s: cells without data or not usable stay NaN or what they were",
  (_name, kernel) => {
    const reference = planesOf([
      [50, 10, 10],
      [NaN, NaN, NaN],
      [50, 10, 10],
    ]);
    const sample = planesOf([
      [52, 10, 10],
      [50, 10, 10],
      [52, 10, 10],
    ]);
    const usable = Uint8Array.of(1, 1, 0);
    const [measured, missing, unused] = kernel(
      reference,
      sample,
      usable,
      new Float32Array(3).fill(NaN),
    );
    expect(measured).toBeCloseTo(ciede2000([50, 10, 10], [52, 10, 10]), 3);
    expect(missing).toBeNaN();
    expect(unused).toBeNaN();
    const out = new Float32Array(3).fill(7);
    expect(kernel(reference, sample, usable, out)).toBe(out);
    expect(out[2]).toBe(7);
  },
);

test("planes of another length are refused", () => {
  const three = planesOf([
    [1, 2, 3],
    [1, 2, 3],
    [1, 2, 3],
  ]);
  expect(() => deltaE00Kernel(three, three, new Uint8Array(2))).toThrow(RangeError);
});

test("a new array holds NaN where nothing is measured", () => {
  const grey = planesOf([
    [50, 0, 0],
    [50, 0, 0],
  ]);
  expect(deltaE00Kernel(grey, grey, Uint8Array.of(0, 1))).toEqual(Float32Array.of(NaN, 0));
});

describe("vectors", () => {
  const random = seededRandom(22);
  const { blockCells } = simd;
  const pairs = Array.from({ length: 2 * blockCells + 3 }, (): Pair => {
    const lab = rounded([100 * random.uniform(), 60 * random.normal(), 60 * random.normal()]);
    return [lab, rounded([lab[0] + random.normal(), lab[1] + random.normal(), lab[2]])];
  });
  const whole = differences((...planes) => deltaE00Simd(simd, ...planes), pairs);

  test.each([0, 1, 2, 3, 5, blockCells - 1, blockCells, blockCells + 1, pairs.length])(
    "%i cells: the same figures as in longer planes, nothing beyond",
    (length) => {
      const first = pairs.slice(0, length);
      const kernel: Kernel = (...planes) => deltaE00Simd(simd, ...planes);
      expect(differences(kernel, first)).toEqual(whole.slice(0, length));
    },
  );

  test("identical again, and from another instance; the memory does not grow", () => {
    const { buffer } = simd.memory[0];
    const other = started();
    expect(differences((...planes) => deltaE00Simd(simd, ...planes), pairs)).toEqual(whole);
    expect(differences((...planes) => deltaE00Simd(other, ...planes), pairs)).toEqual(whole);
    expect(simd.memory[0].buffer).toBe(buffer);
    expect(buffer.byteLength).toBe(2 * 65536);
  });

  test("values no colour has harm no cell beside them", () => {
    const odd = [NaN, Infinity, -Infinity, 3e38, 1e-38, -0];
    const mixed = odd.flatMap((value): Pair[] => [
      [
        [value, value, value],
        [50, value, 10],
      ],
      pairs[0],
    ]);
    const measured = differences((...planes) => deltaE00Simd(simd, ...planes), mixed);
    for (let i = 1; i < mixed.length; i += 2) expect(measured[i]).toBe(whole[0]);
    expect(measured[0]).toBeNaN();
  });
});
