import { expect, test } from "vitest";
import { GREY_SCALE_GRADES, greyScaleChange } from "../../src/colour/greyScaleChange.ts";
import { greyScaleStaining } from "../../src/colour/greyScaleStaining.ts";
import type { Triple } from "../../src/numeric/triple.ts";

/** Values computed by hand from the formula of ISO 105-A05, printed to three decimals; half a unit of the last is allowed. */
const CHANGE: readonly [Triple, Triple, number, string][] = [
  [[59.84, 45.33, 33.97], [61.5, 43, 31], 2.467, "3-4"],
  [[50, 0, 0], [53.4, 0, 0], 3.4, "3"],
  [[45, -20, -40], [48, -18, -34], 4.521, "2-3"],
  [[76.8, 0, 60], [77.5, 0.5, 54], 2.73, "3-4"],
  [[35, 20, -45], [38, 17, -38], 4.664, "2-3"],
  // The hue passes zero.
  [[60, 50, 2], [61, 48, -3], 4.284, "2-3"],
];

test.each(CHANGE)("A05: %j -> %j is dE_F %f, grade %s", (before, after, difference, grade) => {
  const change = greyScaleChange(before, after);
  expect(change.difference).toBeCloseTo(difference, 3);
  expect(change.grade).toBe(grade);
});

/** Scale pairs of ISO 105-A02 (seen in the standard's preview) with the continuous step of the formula, two decimals. */
const CHANGE_STEPS: readonly [number, number, string][] = [
  [0, 5, "5"],
  [0.8, 4.53, "4-5"],
  [1.7, 4, "4"],
  [2.5, 3.53, "3-4"],
  [3.4, 3, "3"],
  [4.8, 2.5, "2-3"],
  [6.8, 2, "2"],
  [9.6, 1.5, "1-2"],
  [13.6, 1, "1"],
];

test.each(CHANGE_STEPS)("A05: a grey pair dE %f apart is step %f, grade %s", (dE, step, grade) => {
  const change = greyScaleChange([60, 0, 0], [60 - dE, 0, 0]);
  expect(change.step).toBeCloseTo(step, 2);
  expect(change.grade).toBe(grade);
});

/** Upper ends of the grades of change and lower ends of those of staining, best first: ISO 105-A05 and -A04, from memory. */
const CHANGE_ENDS = [0.4, 1.25, 2.1, 2.95, 4.1, 5.8, 8.2, 11.6];
const STAINING_ENDS = [4.75, 4.25, 3.75, 3.25, 2.75, 2.25, 1.75, 1.25];

test.each(CHANGE_ENDS.map((end, i) => [end, GREY_SCALE_GRADES[i], GREY_SCALE_GRADES[i + 1]]))(
  "A05: at dE_F %f the grade goes from %s to %s",
  (end, better, worse) => {
    const grade = (dE: number) => greyScaleChange([60, 0, 0], [60 - dE, 0, 0]).grade;
    expect(grade(Number(end) - 1e-6)).toBe(better);
    expect(grade(Number(end) + 1e-6)).toBe(worse);
  },
);

test.each(STAINING_ENDS.map((end, i) => [end, GREY_SCALE_GRADES[i], GREY_SCALE_GRADES[i + 1]]))(
  "A04: at a rating of %f the grade goes from %s to %s",
  (end, better, worse) => {
    const rating = Number(end);
    // The formula turned round: the grey difference that has this rating.
    const dE = rating > 4 ? (5 - rating) / 0.23 : Math.exp((6.1 - rating) / 1.45);
    const grade = (d: number) => greyScaleStaining([95, 0, 0], [95 - d, 0, 0]).grade;
    expect(grade(dE - 1e-6)).toBe(better);
    expect(grade(dE + 1e-6)).toBe(worse);
  },
);

test("A05: a colour that loses all chroma has no hue difference", () => {
  const change = greyScaleChange([50, 10, 0], [50, 0, 0]);
  // dH = 0, C_M = 5, x = (80/30)^2 from h_M 0: dC - D = -10 + 10 * 5 * exp(-7.11) / 100, over 1.01.
  expect(change.difference).toBeCloseTo((10 - 0.5 * Math.exp(-64 / 9)) / 1.01, 3);
});

/** Stains on a white of L* 94, b* 2; ratings computed from the formula of ISO 105-A04 to two decimals. */
const STAINS: readonly [Triple, number, string][] = [
  [[93, 0, 2], 4.77, "5"],
  [[91, 1, 3], 4.37, "4-5"],
  [[88, 6, 4], 3.46, "3-4"],
  [[82, 14, 6], 2.38, "2-3"],
  [[70, 25, 10], 1.43, "1-2"],
];

test.each(STAINS)("A04: the stain %j rates %f, grade %s", (stain, rating, grade) => {
  const staining = greyScaleStaining([94, 0, 2], stain);
  expect(staining.rating).toBeCloseTo(rating, 2);
  expect(staining.grade).toBe(grade);
});

/** The steps of the scale of ISO 105-A03 (differences between its pairs) and the rating the formula gives them. */
const STAIN_STEPS: readonly [number, number][] = [
  [0, 5],
  [2.2, 4.49],
  [4.3, 3.99],
  [6, 3.5],
  [8.5, 3],
  [12, 2.5],
  [16.9, 2],
  [24, 1.49],
  [34.1, 0.98],
];

test.each(STAIN_STEPS)("A04: a grey pair dE %f apart rates %f", (dE, rating) => {
  expect(greyScaleStaining([95, 0, 0], [95 - dE, 0, 0]).rating).toBeCloseTo(rating, 2);
});

test("a missing colour has no grade", () => {
  expect(greyScaleChange([NaN, 0, 0], [50, 0, 0]).grade).toBeNull();
  expect(greyScaleStaining([95, 0, 0], [NaN, 0, 0]).grade).toBeNull();
});
