import { expect, test } from "vitest";
import { statedSurfactant } from "../../src/record/statedSurfactant.ts";
import { UNSAID } from "../support/memoryRecord.ts";

const bath = (surfactant: boolean | null, repeated: "surfactant"[] = []) => ({
  ...UNSAID,
  surfactant,
  repeated,
});

test.each<[string, ReturnType<typeof bath>, ReturnType<typeof bath> | undefined, boolean | null]>([
  ["said to hold some", bath(true), undefined, true],
  ["said to hold none", bath(false), undefined, false],
  ["not said", bath(null), undefined, null],
  ["none, repeated from nothing", bath(false, ["surfactant"]), undefined, null],
  ["none, repeated from an unknown", bath(false, ["surfactant"]), bath(null), null],
  ["none, repeated from some", bath(false, ["surfactant"]), bath(true), null],
  ["none, repeated from none", bath(false, ["surfactant"]), bath(false), false],
  ["some, repeated", bath(true, ["surfactant"]), bath(true), true],
])("%s", (_, settings, before, expected) => {
  expect(statedSurfactant(settings, before)).toBe(expected);
});
