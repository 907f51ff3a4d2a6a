import { expect, test } from "vitest";
import { measuredShareWarnings } from "../../src/compare/measuredShareWarnings.ts";

test("an ink of which less than half is measured is named with its share; half and more is not, nor an older result", () => {
  const [warning, ...others] = measuredShareWarnings([
    { id: "red", measuredShare: 0.9 },
    { id: "black", measuredShare: 0.37 },
    { id: "blue", measuredShare: 0.5 },
    { id: "violet", measuredShare: 0 },
    { id: "green" },
  ]);
  expect(others).toEqual([]);
  expect(warning.code).toBe("small-measured-share");
  expect(warning.message).toContain("black (37 %), violet (0 %)");
  expect(warning.message).not.toMatch(/red|blue|green/);
});

test("nothing to say where all inks are measured", () => {
  expect(measuredShareWarnings([{ id: "red", measuredShare: 0.9 }])).toEqual([]);
  expect(measuredShareWarnings([])).toEqual([]);
});
