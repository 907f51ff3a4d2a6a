import { expect, test } from "vitest";
import type { LastrinseError } from "../../src/errors.ts";
import type { InkGroup } from "../../src/regions/applyCorrections.ts";
import { applyCorrections } from "../../src/regions/applyCorrections.ts";
import type { InkCorrection } from "../../src/regions/inkCorrections.ts";

const GROUPS: readonly InkGroup[] = [
  { id: "paper", kind: "ink", lab: [84, 2, 15], members: [1, 6] },
  { id: "red", kind: "ink", lab: [47, 54, 28], members: [2] },
  { id: "blue", kind: "ink", lab: [42, -8, -32], members: [3] },
  { id: "black", kind: "black", lab: [24, 1, 3], members: [4] },
  { id: "orange", kind: "overprint", lab: [62, 32, 47], members: [5] },
];
const SPLIT: InkGroup = { id: "red-2", kind: "ink", lab: [44, 50, 20], members: [7] };

function applied(...steps: InkCorrection[]): InkGroup[] {
  const splits = steps.flatMap((step) => (step.action === "split" ? [SPLIT] : []));
  return applyCorrections(GROUPS, { file: "inks.json", steps }, splits);
}

function members(groups: readonly InkGroup[]): Record<string, readonly number[]> {
  return Object.fromEntries(groups.map((group) => [group.id, group.members]));
}

test("no steps change nothing", () => {
  expect(applied()).toEqual(GROUPS);
});

test("a merge keeps name, kind and colour of the first, or takes a new name, in the order of the file", () => {
  const merged = applied({ action: "merge", inks: ["orange", "red", "orange"] });
  expect(members(merged)).toEqual({ paper: [1, 6], blue: [3], black: [4], orange: [5, 2] });
  expect(merged.find(({ id }) => id === "orange")?.kind).toBe("overprint");
  expect(
    members(
      applied(
        { action: "merge", inks: ["red", "blue"], as: "purple" },
        { action: "rename", ink: "black", to: "red" },
      ),
    ),
  ).toEqual({ paper: [1, 6], purple: [2, 3], red: [4], orange: [5] });
});

test("merged with the paper, in either order, an ink is paper", () => {
  for (const inks of [
    ["orange", "paper"],
    ["paper", "orange"],
  ])
    expect(members(applied({ action: "merge", inks })).paper).toContain(5);
});

test("a split claims its name at its place among the steps", () => {
  const groups = applied(
    { action: "rename", ink: "red", to: "crimson" },
    { action: "split", seedPixels: [1, 1], as: "red" },
    { action: "kind", ink: "red", kind: "overprint" },
  );
  expect(groups.at(-1)).toEqual({ ...SPLIT, id: "red", kind: "overprint" });
  expect(members(groups).crimson).toEqual([2]);
});

test.each<[string, InkCorrection[], RegExp, RegExp]>([
  [
    "an unknown ink to rename",
    [{ action: "rename", ink: "crimson", to: "x" }],
    /corrections\[0\] of inks\.json.*"crimson"/,
    /paper, red, blue, black, orange/,
  ],
  [
    "an unknown ink to merge",
    [{ action: "merge", inks: ["red", "mauve"] }],
    /"mauve"/,
    /red, blue/,
  ],
  ["an unknown ink's kind", [{ action: "kind", ink: "mauve", kind: "ink" }], /"mauve"/, /blue/],
  [
    "an old name after a rename",
    [
      { action: "rename", ink: "red", to: "crimson" },
      { action: "kind", ink: "red", kind: "ink" },
    ],
    /corrections\[1\]/,
    /crimson/,
  ],
  [
    "a part of an earlier merge",
    [
      { action: "merge", inks: ["red", "blue"] },
      { action: "rename", ink: "blue", to: "sea" },
    ],
    /corrections\[1\].*"blue"/,
    /paper, red, black, orange/,
  ],
  ["a name that is taken", [{ action: "rename", ink: "red", to: "blue" }], /"blue"/, /merge/],
  [
    "a merge under a taken name",
    [{ action: "merge", inks: ["red", "orange"], as: "blue" }],
    /"blue"/,
    /another name/,
  ],
  [
    "a split under a taken name",
    [{ action: "split", seedPixels: [600, 600], as: "blue" }],
    /"blue"/,
    /another name/,
  ],
  [
    "the paper's name for an ink",
    [{ action: "rename", ink: "red", to: "paper" }],
    /paper/,
    /merge/,
  ],
  ["another name for the paper", [{ action: "rename", ink: "paper", to: "x" }], /paper/, /keeps/],
  ["a kind for the paper", [{ action: "kind", ink: "paper", kind: "ink" }], /paper/, /kind/],
  [
    "a name for what becomes paper",
    [{ action: "merge", inks: ["orange", "paper"], as: "x" }],
    /"x"/,
    /Leave "as" out/,
  ],
])("%s is refused", (_, steps, message, remedy) => {
  let error: LastrinseError | undefined;
  try {
    applied(...steps);
  } catch (caught) {
    error = caught as LastrinseError;
  }
  expect(error?.code).toBe("wrong-use");
  expect(error?.input).toBe("inks.json");
  expect(error?.message).toMatch(message);
  expect(error?.remedy).toMatch(remedy);
});
