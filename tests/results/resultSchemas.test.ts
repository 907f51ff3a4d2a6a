import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { toJson } from "../../cli/toJson.ts";
import { reportFailure } from "../../cli/reportFailure.ts";
import { bathRecipe } from "../../src/chemistry/bathRecipe.ts";
import { CARDS } from "../../src/card/cards.ts";
import { LastrinseError } from "../../src/errors.ts";
import { RESULT_SCHEMAS } from "../../src/results/resultSchemas.ts";

const SCHEMAS = fileURLToPath(new URL("../../dist/schema/", import.meta.url));
const recipe = bathRecipe({ volumeMl: 500, limewaterSharePercent: 5, temperatureC: 25 });

describe("what is printed", () => {
  it("fits the schema of its name and holds nothing that the schema does not name", () => {
    const failed = reportFailure(new LastrinseError("bad-json", "no", { remedy: "mend it" }));
    const samples = {
      recipe,
      error: failed.json,
      card: { schema: "lastrinse.card", version: 1, ...CARDS[0] },
    };
    for (const [name, sample] of Object.entries(samples)) {
      const printed: unknown = JSON.parse(toJson(sample));
      // The schema drops what it does not know: equal means that it knows every field.
      expect(RESULT_SCHEMAS[name as keyof typeof samples].parse(printed)).toEqual(printed);
    }
  });

  it("is refused as a defect with a missing field, a wrong type or a figure that is no number", () => {
    const { ph, ...without } = recipe;
    expect(() => toJson(without)).toThrow(/ph/);
    expect(() => toJson({ ...recipe, ph: String(ph) })).toThrow(/expected number/);
    expect(() => toJson({ ...recipe, ph: NaN })).toThrow(/lastrinse\.recipe/);
    expect(() => toJson({ ...recipe, schema: "lastrinse.nothing" })).toThrow(/nothing/);
    expect(reportFailure(new Error("does not fit")).exitStatus).toBe(1);
  });

  it("may say that a figure was not measured, and may grow", () => {
    expect(toJson({ ...recipe, rinses: NaN })).toContain('"rinses":null');
    expect(toJson({ ...recipe, more: 1 })).toContain('"more":1');
  });
});

describe("the JSON Schemas of the build", () => {
  it("are there for every printed object and for the events", () => {
    const names = readdirSync(SCHEMAS).map((file) => file.replace(/\.json$/, ""));
    expect(names).toEqual(expect.arrayContaining([...Object.keys(RESULT_SCHEMAS), "event"]));
  });

  it("name the required fields of a comparison and let it grow", () => {
    const schema = JSON.parse(readFileSync(`${SCHEMAS}compare.json`, "utf8")) as {
      readonly required: readonly string[];
      readonly additionalProperties?: unknown;
    };
    expect(schema.required).toEqual(
      expect.arrayContaining(["before", "after", "registration", "paper", "inks", "warnings"]),
    );
    expect(schema.additionalProperties).not.toBe(false);
  });
});
