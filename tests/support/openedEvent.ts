import type { NewEvent } from "../../src/record/appendEvent.ts";

/** The first event of a record. */
export const OPENED: NewEvent<"opened"> = {
  kind: "opened",
  at: "2026-05-04T10:00:00+02:00",
  program: "test",
  inputs: [],
  settings: {
    title: "Tales of the Slack Tide",
    object: null,
    bench: null,
    jar: null,
    insideMm: null,
    passes: null,
    limits: { maxDeltaE00: 2, risk: 0.1, minGain: 0.1 },
  },
};
