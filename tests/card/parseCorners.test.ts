import { expect, test } from "vitest";
import { parseCorners } from "../../src/card/parseCorners.ts";
import { LastrinseError } from "../../src/errors.ts";

test("four pairs, any white space between them, decimals and signs", () => {
  expect(parseCorners("  10,20 30.5,-1\t 4e2,.5 \n7.,8 ", "--corners")).toEqual([
    [10, 20],
    [30.5, -1],
    [400, 0.5],
    [7, 8],
  ]);
});

test.each([
  "",
  "1,2 3,4 5,6",
  "1,2 3,4 5,6 7,8 9,10",
  "1,2 3,4 5,6 7",
  "1, 2 3, 4 5, 6 7, 8",
  "1,2 3,4 5,6 7,NaN",
  "1,2 3,4 5,6 7,8,9",
  "1;2 3;4 5;6 7;8",
  "1,2 3,4 5,6 Infinity,8",
])("refused with the order spelt out: %j", (text) => {
  const attempt = (): unknown => parseCorners(text, "--before-corners");
  expect(attempt).toThrow(LastrinseError);
  try {
    attempt();
  } catch (error) {
    const { code, remedy, input } = error as LastrinseError;
    expect(code).toBe("wrong-use");
    expect(input).toBe("--before-corners");
    expect(remedy).toContain("last of the last row");
  }
});
