import { expect, test } from "vitest";
import { levenbergMarquardt } from "../../src/numeric/levenbergMarquardt.ts";

/** Problem Misra1a of the NIST Statistical Reference Datasets (nonlinear regression): y = b1 (1 - exp(-b2 x)). */
const X = [77.6, 114.9, 141.1, 190.8, 239.9, 289, 332.8, 378.4, 434.8, 477.3, 536.8, 593.1, 689.1, 760]; // prettier-ignore
const Y = [10.07, 14.73, 17.94, 23.93, 29.61, 35.18, 40.02, 44.82, 50.76, 55.05, 61.01, 66.4, 75.47, 81.78]; // prettier-ignore

const misra1a = {
  parameters: 2,
  residuals: X.length,
  evaluate: ([b1, b2]: Float64Array, r: Float64Array, J: Float64Array | null): number => {
    X.forEach((x, i) => {
      const decay = Math.exp(-b2 * x);
      r[i] = b1 * (1 - decay) - Y[i];
      if (J === null) return;
      J[2 * i] = 1 - decay;
      J[2 * i + 1] = b1 * x * decay;
    });
    return r.reduce((sum, value) => sum + value * value, 0);
  },
};

test.each([
  [500, 0.0001],
  [250, 0.0005],
])("finds the certified values of Misra1a from start (%f, %f)", (b1, b2) => {
  const fit = levenbergMarquardt(misra1a, [b1, b2], { maximumSteps: 100, tolerance: 1e-14 });
  expect(fit.converged).toBe(true);
  // Certified: 238.94212918, 5.5015643181e-4, residual sum of squares 0.12455138894. Six digits is what double precision holds of a
  // minimum found by its value.
  expect(fit.parameters[0] / 238.94212918).toBeCloseTo(1, 6);
  expect(fit.parameters[1] / 5.5015643181e-4).toBeCloseTo(1, 6);
  expect(fit.cost / 0.12455138894).toBeCloseTo(1, 9);
});

test("walks the curved valley of Rosenbrock's function to its end", () => {
  const fit = levenbergMarquardt(
    {
      parameters: 2,
      residuals: 2,
      evaluate: ([x, y], r, J) => {
        r[0] = 10 * (y - x * x);
        r[1] = 1 - x;
        J?.set([-20 * x, 10, -1, 0]);
        return r[0] ** 2 + r[1] ** 2;
      },
    },
    [-1.2, 1],
    { maximumSteps: 100 },
  );
  expect(fit.parameters[0]).toBeCloseTo(1, 6);
  expect(fit.parameters[1]).toBeCloseTo(1, 6);
});

test("starting at the answer it stays there", () => {
  const start = Float64Array.of(3);
  const fit = levenbergMarquardt(
    {
      parameters: 1,
      residuals: 1,
      evaluate: ([x], r, J) => {
        r[0] = x - 3;
        J?.set([1]);
        return r[0] ** 2;
      },
    },
    start,
  );
  expect(fit).toEqual({ parameters: start, cost: 0, steps: 0, converged: true });
});

test("refuses a start that has another length or no finite cost", () => {
  expect(() => levenbergMarquardt(misra1a, [1])).toThrow(RangeError);
  expect(() => levenbergMarquardt(misra1a, [NaN, 1])).toThrow(RangeError);
});
