import { expect, test } from "vitest";
import { solveCholesky } from "../../src/numeric/cholesky.ts";
import { leastSquares } from "../../src/numeric/leastSquares.ts";

test("a straight line through scattered points, by the textbook formulas", () => {
  const x = [0, 1, 2, 3, 4];
  const y = [1, 2.5, 3, 4.5, 5];
  const { solution, residuals, rank } = leastSquares(
    x.map((value) => [1, value]),
    y,
  );
  // slope = Sxy / Sxx = 10 / 10, intercept = mean y - slope mean x = 3.2 - 2.
  expect(solution[1]).toBeCloseTo(1, 12);
  expect(solution[0]).toBeCloseTo(1.2, 12);
  expect(rank).toBe(2);
  expect(residuals.reduce((sum, value) => sum + value, 0)).toBeCloseTo(0, 12);
});

test("a weight of two is a row given twice", () => {
  const rows = [[1, 0], [1, 1], [1, 3]]; // prettier-ignore
  const twice = leastSquares([...rows, rows[1]], [0, 2, 1, 2]);
  const weighted = leastSquares(rows, [0, 2, 1], [1, 2, 1]);
  twice.solution.forEach((value, i) => {
    expect(weighted.solution[i]).toBeCloseTo(value, 12);
  });
});

test("columns that depend on each other: rank is short, the shortest solution is given", () => {
  const fit = leastSquares([[1, 1], [2, 2], [3, 3]], [2, 4, 6]); // prettier-ignore
  expect(fit.rank).toBe(1);
  expect(fit.condition).toBe(Infinity);
  expect(fit.solution[0]).toBeCloseTo(1, 12);
  expect(fit.solution[1]).toBeCloseTo(1, 12);
});

test("Cholesky solves a positive definite system and says when it is none", () => {
  const b = Float64Array.of(10, 8);
  expect(solveCholesky(Float64Array.of(4, 2, 2, 3), b)).toBe(true);
  expect(b[0]).toBeCloseTo(1.75, 14);
  expect(b[1]).toBeCloseTo(1.5, 14);
  expect(solveCholesky(Float64Array.of(1, 2, 2, 4), Float64Array.of(1, 1))).toBe(false);
  expect(solveCholesky(Float64Array.of(1, 2, 2, 1), Float64Array.of(1, 1))).toBe(false);
});
