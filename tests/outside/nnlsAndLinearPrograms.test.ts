import { fcnnlsVector } from "ml-fcnnls";
import { Matrix } from "ml-matrix";
import { describe, expect, test } from "vitest";
import { solve } from "yalps";
import { type Constraint, maximise } from "../../src/numeric/linearProgram.ts";
import { nnls } from "../../src/numeric/nnls.ts";
import { seededRandom } from "../../src/numeric/random.ts";

describe("non-negative least squares against ml-fcnnls", () => {
  test("400 random problems of 3 to 8 rows and 1 to 6 columns: the same residual", () => {
    const random = seededRandom(11);
    for (let k = 0; k < 400; k++) {
      const m = 3 + random.below(6);
      const n = 1 + random.below(Math.min(6, m));
      const A = Array.from({ length: n }, () =>
        Float64Array.from({ length: m }, () => random.uniform() - 0.2),
      );
      const b = Float64Array.from({ length: m }, () => random.uniform() - 0.3);
      const rows = Array.from({ length: m }, (_, i) => A.map((column) => column[i]));
      const theirs = fcnnlsVector(new Matrix(rows), Array.from(b)).K.to1DArray();
      const ours = nnls(A, b);
      const residual = (x: ArrayLike<number>) =>
        Math.hypot(
          ...Array.from(b, (value, i) => value - A.reduce((s, c, j) => s + c[i] * x[j], 0)),
        );
      expect(Math.min(...ours)).toBeGreaterThanOrEqual(0);
      // Normal equations in double precision: about half the digits survive.
      expect(residual(ours)).toBeLessThanOrEqual(residual(theirs) + 1e-8);
    }
  });

  test("equal columns: one of them takes it all, the sum is right", () => {
    const x = nnls(
      [
        [1, 2, 3],
        [1, 2, 3],
      ],
      [2, 4, 6],
    );
    expect(x[0] + x[1]).toBeCloseTo(2, 9);
  });
});

describe("linear programs against yalps", () => {
  test("500 random programs: status and value agree", () => {
    const random = seededRandom(12);
    const seen = new Set<string>();
    for (let k = 0; k < 500; k++) {
      const n = 2 + random.below(8);
      const m = 2 + random.below(8);
      const draw = () => Math.round(20 * (random.uniform() - 0.4)) / 4;
      const objective = Array.from({ length: n }, draw);
      const constraints: Constraint[] = Array.from({ length: m }, () => ({
        coefficients: Array.from({ length: n }, draw),
        kind: random.uniform() < 0.2 ? ("exactly" as const) : ("at-most" as const),
        bound: Math.round(20 * (random.uniform() - 0.25)) / 4,
      }));
      const model = {
        direction: "maximize" as const,
        objective: "c",
        constraints: Object.fromEntries(
          constraints.map(({ kind, bound }, i) => [
            `r${i}`,
            kind === "exactly" ? { equal: bound } : { max: bound },
          ]),
        ),
        variables: Object.fromEntries(
          objective.map((c, j) => [
            `x${j}`,
            Object.fromEntries([
              ["c", c],
              ...constraints.map(({ coefficients }, i) => [`r${i}`, coefficients[j]] as const),
            ]),
          ]),
        ),
      };
      const theirs = solve(model, { precision: 1e-10 });
      const ours = maximise(objective, constraints);
      seen.add(ours.status);
      expect(ours.status).toBe(theirs.status);
      if (ours.status === "optimal") {
        // Ties in which corner is found are allowed, the value is not.
        expect(Math.abs(ours.value - theirs.result)).toBeLessThan(
          1e-6 * (1 + Math.abs(theirs.result)),
        );
        for (const { coefficients, kind, bound } of constraints) {
          const sum = Array.from(ours.x).reduce((s, x, j) => s + x * coefficients[j], 0);
          if (kind === "exactly") expect(sum).toBeCloseTo(bound, 6);
          else expect(sum).toBeLessThan(bound + 1e-6);
        }
      }
    }
    expect([...seen].sort()).toEqual(["infeasible", "optimal", "unbounded"]);
  });
});
