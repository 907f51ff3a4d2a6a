import { expect, test } from "vitest";
import { statedConditions } from "../../src/record/statedConditions.ts";
import type { BathEvent } from "../../src/record/treatment.ts";
import { UNSAID } from "../support/memoryRecord.ts";

const bath = (settings: Partial<typeof UNSAID>): BathEvent => ({
  id: "000002",
  at: "",
  order: 2,
  inputs: [],
  settings: { ...UNSAID, ...settings },
});

test("counts with and without a photo; what nobody said is null, never false or 0", () => {
  const said = { surfactant: false, minutes: 5, temperatureC: 0, phIn: 8.5, volumeMl: 500 };
  expect(statedConditions([bath(said), bath({ kind: "rinse" })])).toEqual([
    {
      kind: "wash",
      surfactant: false,
      minutes: 5,
      temperatureC: 0,
      ph: 8.5,
      volumeMl: 500,
      settled: false,
    },
    {
      kind: "rinse",
      surfactant: null,
      minutes: null,
      temperatureC: null,
      ph: null,
      volumeMl: null,
      settled: false,
    },
  ]);
});
