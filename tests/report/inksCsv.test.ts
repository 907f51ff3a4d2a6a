import { expect, test } from "vitest";
import { inksCsv, treatmentCsv } from "../../src/report/inksCsv.ts";
import { compareResult, treatmentView } from "../support/treatmentView.ts";

/** A reader after RFC 4180, written for these tests. */
function parseCsv(text: string): Record<string, string>[] {
  const rows: string[][] = [[]];
  const cell = /(?:"((?:[^"]|"")*)"|([^",\r\n]*))(,|\r\n|$)/y;
  while (cell.lastIndex < text.length) {
    const match = cell.exec(text);
    if (match === null) throw new Error(`Not RFC 4180 at ${String(cell.lastIndex)}.`);
    const [, quoted, plain, end] = match as unknown as (string | undefined)[];
    rows.at(-1)?.push(quoted?.replaceAll('""', '"') ?? plain ?? "");
    if (end === "\r\n") rows.push([]);
  }
  const [head, ...body] = rows.filter((row) => row.length > 0);
  return body.map((row) => {
    expect(row).toHaveLength(head.length);
    return Object.fromEntries(head.map((name, i) => [name, row[i]]));
  });
}

test("every number comes back to its third digit, minus signs included; what is missing stays empty", () => {
  const result = compareResult();
  const rows = parseCsv(inksCsv(result));
  expect(rows.map(({ id }) => id)).toEqual(["paper", "blue", "red", "'=cmd()"]);
  const areas = [result.paper, ...result.inks];
  rows.forEach((row, i) => {
    const area = areas[i];
    if (area === null) throw new Error("The fixture has a paper.");
    const pairs: readonly (readonly [string, number | null])[] = [
      ["area_cm2", area.areaCm2],
      ["L_before", area.labBefore?.[0] ?? null],
      ["b_after", area.labAfter?.[2] ?? null],
      ["dE00", area.deltaE00],
      ["dE00_low_95", area.deltaE00Low],
      ["dE00_floor", area.floorDeltaE00],
      ["dC", area.deltaC],
      ["dH", area.deltaH],
      ["grey_scale_step", area.greyScaleStep],
    ];
    for (const [name, value] of pairs)
      if (value === null) expect(row[name]).toBe("");
      // Half of the last digit written.
      else expect(Math.abs(Number(row[name]) - value)).toBeLessThanOrEqual(0.0005);
  });
  expect(Number(rows[1].dC)).toBe(-1.2);
});

test("texts that would run as formulas are defused, quotes are doubled", () => {
  const [blue, ...others] = compareResult().inks;
  const names = ["+1", "-red", "@sum", 'a "b", c', "line\r\nbreak", "\ttab"];
  const result = compareResult({
    paper: null,
    inks: [...names.map((id) => ({ ...blue, id })), ...others],
  });
  const ids = parseCsv(inksCsv(result)).map(({ id }) => id);
  expect(ids.slice(0, 6)).toEqual(["'+1", "'-red", "'@sum", 'a "b", c', "line\r\nbreak", "'\ttab"]);
});

test("a treatment's table names side and stage, and puts the prediction beside the washed front", async () => {
  const rows = parseCsv(treatmentCsv(await treatmentView("final")));
  const red = rows.find(({ id }) => id === "red");
  expect(red?.side).toBe("front");
  expect(red?.stage).toBe("washed");
  expect(Number(red?.predicted_fade_dE00_high_90)).toBe(2.7);
  expect(rows.find(({ id }) => id === "blue")?.predicted_fade_dE00).toBe("");
});
