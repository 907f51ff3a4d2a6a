import { expect, test } from "vitest";
import type { ModelEvidence } from "../../src/calibrate/chooseModel.ts";
import { chooseModel } from "../../src/calibrate/chooseModel.ts";
import type { ModelName } from "../../src/calibrate/correction.ts";
import { marredPatch } from "../../src/calibrate/marredPatch.ts";

/** Twenty-four figures with this mean and a standard error of about 0.1 of it. */
const around = (mean: number): number[] =>
  Array.from({ length: 24 }, (_, i) => mean * (i % 2 === 0 ? 0.5 : 1.5));

const evidence = (
  means: Partial<Record<ModelName, number>>,
  nulls?: Partial<Record<ModelName, number>>,
): ModelEvidence[] =>
  Object.entries(means).map(([model, mean]) => ({
    model: model as ModelName,
    errors: around(mean),
    nulls: nulls === undefined ? null : around(nulls[model as ModelName] ?? NaN),
  }));

test("a single frame: the default, while no model is better by more than a standard error", () => {
  expect(chooseModel(evidence({ "3x3": 4, "3x4": 4, "gam+3x3": 4.2, "curve+3x3": 4 }))).toBe(
    "gam+3x3",
  );
});

test("a single frame: where the default is worse, the fewest numbers among those as good as the best", () => {
  expect(chooseModel(evidence({ "curve+3x3+plate": 2.5, "gam+3x3": 4, "curve+3x3": 2.6 }))).toBe(
    "curve+3x3",
  );
  expect(chooseModel(evidence({ "3x3": 2.7, "3x4": 2.6, "gam+3x3": 3.5 }))).toBe("3x3");
});

test("a pair: among good colours the quietest difference decides, not the smallest error against the card", () => {
  const errors = { "3x3": 1.3, "gam+3x3": 1.5, "curve+3x3": 1.6 };
  expect(chooseModel(evidence(errors, { "3x3": 0.4, "gam+3x3": 0.1, "curve+3x3": 0.1 }))).toBe(
    "gam+3x3",
  );
  expect(chooseModel(evidence(errors, { "3x3": 0.4, "gam+3x3": 0.6, "curve+3x3": 0.1 }))).toBe(
    "curve+3x3",
  );
});

test("a pair: a quiet model whose colours are approximate and clearly worse than the best is not admitted", () => {
  const choice = chooseModel(evidence({ "3x3": 6, "gam+3x3": 4 }, { "3x3": 0.1, "gam+3x3": 0.5 }));
  expect(choice).toBe("gam+3x3");
});

test("an outlier that the fit does not follow is marred; one that only itself can teach is not", () => {
  const errors = around(1).map((error, i): number | null => (i === 4 ? 9 : i === 9 ? null : error));
  expect(marredPatch(errors, errors)).toBe(4);
  expect(marredPatch(errors, errors.map((error, i) => (i === 4 ? 1 : error)))).toBeNull(); // prettier-ignore
  // 3.5 x 1.4826 x median 1.0 = 5.2.
  expect(marredPatch(errors.map((e, i) => (i === 4 ? 4.9 : e)), errors)).toBeNull(); // prettier-ignore
});
