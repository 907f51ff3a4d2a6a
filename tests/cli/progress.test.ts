import { describe, expect, test } from "vitest";
import { progressLine } from "../../cli/progressOnStderr.ts";

const OPTIONS = {
  barsize: 8,
  barCompleteString: "=".repeat(8),
  barIncompleteString: "-".repeat(8),
  barGlue: "",
};

describe("the line of progress", () => {
  test.each([
    [4, "4 s"],
    [59.4, "59 s"],
    [130, "2 min"],
  ])("tells stage, share and time left: %f s", (eta, left) => {
    const line = progressLine(OPTIONS, { progress: 0.5, eta }, { stage: "measuring" });
    expect(line).toBe(`measuring ====---- 50 %, ${left} left`);
  });

  test.each([
    [0, 0],
    [0, Infinity],
    [0.3, NaN],
  ])("tells no time that nobody knows: done %f, left %f", (progress, eta) => {
    const line = progressLine(OPTIONS, { progress, eta }, { stage: "reading the scans" });
    expect(line).toMatch(/^reading the scans [=-]{8} \d+ %$/);
  });
});
