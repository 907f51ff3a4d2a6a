import { describe, expect, test } from "vitest";
import { type Condition, conditionSlip } from "../../src/bath/conditionSlip.ts";

describe("slips of the pen", () => {
  test.each<[Condition, number, string]>([
    ["ph", 85, "expected a pH from 0 to 14, received 85: did you mean 8.5?"],
    ["ph", 850, "expected a pH from 0 to 14, received 850: did you mean 8.5?"],
    ["ph", -8.5, "expected a pH from 0 to 14, received -8.5"],
    [
      "temperatureC",
      380,
      "expected a temperature from -10 to 100 C, received 380: did you mean 38 C?",
    ],
    // 101 F = 69 / 1.8 C.
    [
      "temperatureC",
      101,
      "expected a temperature from -10 to 100 C, received 101: did you mean 38.3 C (101 F)?",
    ],
    [
      "volumeMl",
      0.5,
      "expected more than the 16 mL that the wet sheet itself holds, received 0.5: did you mean 500 mL (0.5 litres)?",
    ],
    [
      "volumeMl",
      2,
      "expected more than the 16 mL that the wet sheet itself holds, received 2: did you mean 2000 mL (2 litres)?",
    ],
    [
      "volumeMl",
      16,
      "expected more than the 16 mL that the wet sheet itself holds, received 16: did you mean 16000 mL (16 litres)?",
    ],
    [
      "volumeMl",
      -500,
      "expected more than the 16 mL that the wet sheet itself holds, received -500",
    ],
    ["volumeMl", 500_000, "expected a volume of at most 100 000 mL, received 500000"],
    ["minutes", 0, "expected a time from 0.01 to 10 000 minutes, received 0"],
  ])("%s %f", (condition, value, words) => {
    expect(conditionSlip(condition, value)).toBe(words);
  });

  test.each<[Condition, number]>([
    ["ph", 0],
    ["ph", 14],
    ["ph", 8.5],
    ["temperatureC", 100],
    ["temperatureC", 38],
    ["volumeMl", 16.1],
    ["volumeMl", 100_000],
    ["minutes", 5],
  ])("%s %f may be true", (condition, value) => {
    expect(conditionSlip(condition, value)).toBeNull();
  });

  test("a volume is held against the sheet at hand", () => {
    expect(conditionSlip("volumeMl", 200, 300)).toContain("more than the 300 mL");
    expect(conditionSlip("volumeMl", 12, 9)).toBeNull();
  });
});
