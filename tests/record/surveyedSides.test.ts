import { expect, test } from "vitest";
import { surveyedSides } from "../../src/record/surveyedSides.ts";
import { input, memoryRecord, newEvent, SCANNED } from "../support/memoryRecord.ts";

const scan = (side: typeof SCANNED.side) =>
  newEvent("before", { ...SCANNED, side }, [input("scan", `${side}.png`)]);
const ink = (id: string) => ({ id, kind: "ink", lab: [50, 50, 30], areaCm2: 9 });
const survey = (paperLab: readonly number[] | null, ...ids: string[]) => ({
  paperLab,
  inks: ids.map(ink),
  warnings: [],
});

test("colours of all sides together, the paper of the first that shows some, and the sides that are missing", async () => {
  const record = memoryRecord([scan("back"), scan("front")], {
    "000002-survey": survey([70, 2, 15], "blue"),
    "000003-survey": survey(null, "red", "blue"),
  });
  const { colours, paperLab, warnings } = await surveyedSides(record);
  expect(colours.map(({ id }) => id)).toEqual(["red", "blue", "blue"]);
  expect(paperLab).toEqual([70, 2, 15]);
  expect(warnings.map(({ code }) => code)).toEqual(["side-not-scanned"]);
  expect(warnings[0].message).toMatch(/inside of the front/);
  expect(warnings[0].message).not.toMatch(/\bback,/);
});

test("nothing scanned: nothing known, and nothing said of single sides", async () => {
  expect(await surveyedSides(memoryRecord([]))).toEqual({
    colours: [],
    paperLab: null,
    warnings: [],
  });
});
