import { expect, test } from "vitest";
import { correctCarryOver } from "../../src/bath/correctCarryOver.ts";

test("what a wet sheet of 16 mL brings into 500 mL is 3.2 % of the bath before", () => {
  const [first, second, third] = correctCarryOver([0.1, 0.05, 0.0005], [500, 500, 250], 16);
  expect(first).toBe(0.1);
  expect(second).toBeCloseTo(0.05 - 0.0032, 12);
  expect(third).toBe(0); // less than was brought along: nothing new, not a negative amount
});
