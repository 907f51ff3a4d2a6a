import { describe, expect, test } from "vitest";
import { LastrinseError } from "../../src/errors.ts";
import { strangeInk } from "../../src/record/strangeInk.ts";
import { surveyedSides } from "../../src/record/surveyedSides.ts";
import { memoryRecord, newEvent, SCANNED } from "../support/memoryRecord.ts";

const SURVEY = {
  paperLab: [78, 3, 19],
  inks: [
    { id: "red", kind: "ink", lab: [50, 50, 30], areaCm2: 90 },
    { id: "light-red", kind: "ink", lab: [65, 25, 22], areaCm2: 20 },
    { id: "blue", kind: "ink", lab: [40, -5, -35], areaCm2: 40 },
  ],
  warnings: [],
};
const scan = newEvent("before", SCANNED);
const record = memoryRecord([scan], { "000002-survey": SURVEY });

describe("the name of an ink", () => {
  test.each([
    ["red", null],
    // A tint that the scan names is no slip of the pen.
    ["light-red", null],
    ["rde", { inks: ["red", "blue"], nearest: "red" }],
    ["Blue", { inks: ["red", "blue"], nearest: "blue" }],
    ["violet", { inks: ["red", "blue"], nearest: null }],
  ])("%s", async (name, strange) => {
    expect(await strangeInk(record, name)).toEqual(strange);
  });

  test("any name serves before anything was scanned, and where the scan shows no ink", async () => {
    expect(await strangeInk(memoryRecord([]), "crimson")).toBeNull();
    const bare = { "000002-survey": { ...SURVEY, inks: [] } };
    expect(await strangeInk(memoryRecord([scan], bare), "crimson")).toBeNull();
  });

  test("a scan that can't be read now never stands in the way of a test; a defect is one", async () => {
    const failing = (error: Error) => ({
      ...record,
      store: { ...record.store, keep: () => Promise.reject(error) },
    });
    const gone = new LastrinseError("unreadable", "gone", { remedy: "put it back" });
    expect(await strangeInk(failing(gone), "rde")).toBeNull();
    await expect(strangeInk(failing(new TypeError("x")), "rde")).rejects.toThrow(TypeError);
  });
});

describe("what the sides show together", () => {
  test("colours of all sides, the first bare paper, and which sides are missing", async () => {
    const both = memoryRecord([scan, newEvent("before", { ...SCANNED, side: "back" })], {
      "000002-survey": { ...SURVEY, paperLab: null },
      "000003-survey": { ...SURVEY, inks: SURVEY.inks.slice(2) },
    });
    const { colours, paperLab, warnings } = await surveyedSides(both);
    expect(colours.map(({ id }) => id)).toEqual(["red", "light-red", "blue", "blue"]);
    expect(paperLab).toEqual(SURVEY.paperLab);
    expect(warnings).toEqual([
      {
        code: "side-not-scanned",
        message: expect.stringMatching(
          /^Not scanned: inside of the front, inside of the back\./,
        ) as string,
      },
    ]);
    expect((await surveyedSides(memoryRecord([]))).warnings).toEqual([]);
  });
});
