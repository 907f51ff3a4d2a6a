import { expect, test } from "vitest";
import { nameRecord } from "../../cli/nameRecord.ts";
import { DEFAULT_LIMITS } from "../../calibration/priors.ts";
import { decide } from "../../src/advice/decide.ts";

test("command lines of an advice name the record, quoted where it has spaces", () => {
  const bath = {
    kind: "wash" as const,
    surfactant: null,
    ph: null,
    temperatureC: null,
    minutes: null,
    volumeMl: null,
    event: "000004",
    usable: false,
  };
  const advice = decide({
    inks: [],
    baths: [bath],
    next: null,
    limits: DEFAULT_LIMITS,
    gain: null,
  });
  expect(JSON.stringify(advice)).toContain("amend RECORD 000004");
  const named = JSON.stringify(nameRecord(advice, "my $& rec"));
  expect(named).not.toContain("RECORD");
  expect(named).toContain("amend 'my $& rec' 000004");
});
