import { expect, test } from "vitest";
import { LastrinseError } from "../../src/errors.ts";
import { parseInkCorrections } from "../../src/regions/parseInkCorrections.ts";

function file(corrections: readonly unknown[]): string {
  return JSON.stringify({ schema: "lastrinse.inks", version: 1, corrections });
}

function refusal(text: string): LastrinseError {
  try {
    parseInkCorrections(text, "my-inks.json");
  } catch (error) {
    if (error instanceof LastrinseError) return error;
    throw error;
  }
  throw new Error("nothing was thrown");
}

test("reads every action, in order, also behind a byte order mark", () => {
  const steps = [
    { action: "rename", ink: "red", to: "Título rojo" },
    { action: "merge", inks: ["blue", "light-blue"], as: "sea" },
    { action: "merge", inks: ["brown", "paper"] },
    { action: "split", seedPixels: [120.5, 88], as: "sky" },
    {
      action: "exclude",
      polygonPixels: [
        [0, 0],
        [10, 0],
        [10, 10],
      ],
    },
    { action: "kind", ink: "orange", kind: "ink" },
  ];
  const parsed = parseInkCorrections(`\uFEFF${file(steps)}`, "my-inks.json");
  expect(parsed).toEqual({ file: "my-inks.json", steps });
});

test("no JSON: names the file and the line", () => {
  const text = '{\n "schema": "lastrinse.inks",\n "version": 1,\n "corrections": [,]\n}';
  const error = refusal(text);
  expect(error.code).toBe("bad-json");
  expect(error.input).toBe("my-inks.json");
  expect(error.message).toMatch(/my-inks\.json.*line 4/);
  expect(error.remedy).toMatch(/comma/);
  expect(refusal("").code).toBe("bad-json");
  expect(refusal('{"schema":').message).toMatch(/my-inks\.json/);
});

test.each([
  ["a number for a name", [{ action: "rename", ink: "red", to: 4 }], /corrections\[0\]\.to/],
  ["an empty name", [{ action: "rename", ink: "red", to: "" }], /corrections\[0\]\.to/],
  ["a name with a slash", [{ action: "rename", ink: "red", to: "a/b" }], /corrections\[0\]\.to/],
  ["a missing field", [{ action: "split", as: "sky" }], /corrections\[0\]\.seedPixels/],
  ["one ink to merge", [{ action: "merge", inks: ["red"] }], /corrections\[0\]\.inks/],
  [
    "a line for a polygon",
    [
      {
        action: "exclude",
        polygonPixels: [
          [0, 0],
          [1, 1],
        ],
      },
    ],
    /polygonPixels/,
  ],
  ["a point of one number", [{ action: "split", seedPixels: [3], as: "sky" }], /seedPixels/],
  ["an unknown kind", [{ action: "kind", ink: "red", kind: "paint" }], /corrections\[0\]\.kind/],
  [
    "an unknown action",
    [{ action: "rename", ink: "a", to: "b" }, { action: "paint" }],
    /corrections\[1\]/,
  ],
  ["a misspelt field", [{ action: "rename", ink: "red", to: "b", too: "c" }], /too/],
])("names the place of %s", (_, corrections, place) => {
  const error = refusal(file(corrections));
  expect(error.code).toBe("bad-json");
  expect(error.message).toMatch(place);
  expect(error.message).toMatch(/my-inks\.json/);
  expect(error.remedy).not.toBe("");
});

test("another schema or version, or no object, is refused", () => {
  expect(refusal('{"schema":"lastrinse.station","version":1,"corrections":[]}').message).toMatch(
    /schema/,
  );
  expect(refusal('{"schema":"lastrinse.inks","version":2,"corrections":[]}').message).toMatch(
    /version/,
  );
  expect(refusal("[]").message).toMatch(/top level/);
});
