import { join } from "node:path";
import { DEFAULT_LIMITS } from "../calibration/priors.ts";
import { DEFAULT_CARD_NAME } from "../src/card/cards.ts";
import { appendEvent } from "../src/record/appendEvent.ts";
import type { EventKind, Settings } from "../src/record/event.ts";
import { describeInputs } from "./inRecord.ts";
import { readVersion } from "./readVersion.ts";

/** The invented day of the sample treatment: fixed, so that the demo writes the same bytes every time. */
const DAY = "2026-03-14";
const ZONE = "+01:00";

const LIQUID = {
  liquid: "the wash bath itself, warm",
  surfactant: true,
  ph: 8.5,
  temperatureC: 38,
  minutes: 5,
  site: null,
} as const;

const BATH: Settings<"bath"> = {
  kind: "wash",
  surfactant: true,
  composition: "water brought to pH 8.5 with limewater, 2 drops of non-ionic surfactant",
  minutes: 5,
  temperatureC: 38,
  volumeMl: 500,
  phIn: 8.5,
  phOut: 8,
  agitation: "tray rocked gently",
  foam: null,
  note: null,
  repeated: [],
  card: null,
};

const RINSE: Settings<"bath"> = {
  ...BATH,
  kind: "rinse",
  surfactant: false,
  composition: "water brought to pH 8.5 with limewater",
};

const FIRST_BATH_NOTE =
  "two minutes at the owner's risk: red was doubtful under its blotter, and nothing else tells what it gives";

/**
 * Writes the sample treatment into a record: opened, scanned, tested, three baths, dried, scanned again.
 * @param record A new folder. @param samples Where the sample images lie.
 */
export async function writeDemoRecord(record: string, samples: string): Promise<void> {
  const sample = (name: string): string => join(samples, name);
  const add = async <Kind extends EventKind>(
    time: string,
    kind: Kind,
    settings: Settings<Kind>,
    files: Readonly<Record<string, string | undefined>> = {},
  ): Promise<void> => {
    await appendEvent(record, {
      kind,
      settings,
      at: `${DAY}T${time}${ZONE}`,
      program: readVersion(),
      inputs: await describeInputs(record, files),
    });
  };
  const scan = {
    side: "front",
    card: DEFAULT_CARD_NAME,
    corners: null,
    state: "dry",
    stateAssumed: false,
    dpi: null,
    page: null,
  } as const;

  await add("09:00:00", "opened", {
    title: "Brine Bell, a monthly of deep water yarns: front cover",
    object: "invented sample; owner agreed to washing in water, at most 2.5 dE00 of any ink",
    bench: null,
    jar: "flat",
    insideMm: 50,
    passes: 1,
    limits: { ...DEFAULT_LIMITS, maxDeltaE00: 2.5 },
  });
  await add("09:10:00", "before", scan, { scan: sample("before.png") });
  for (const [i, ink] of ["red", "blue", "yellow", "black"].entries())
    await add(
      `09:${String(20 + 6 * i)}:00`,
      "blot",
      { ...LIQUID, ink, result: null, card: DEFAULT_CARD_NAME, spotBox: null, controlBox: null },
      { photo: sample(`blotter-${ink}.jpg`) },
    );
  await add("10:00:00", "step", {
    what: "cover off its staples, surface cleaned dry with a soft brush",
    area: null,
    bleed: null,
  });
  const jar = (bath: number) => ({
    spent: sample(`jar-bath-${String(bath)}.jpg`),
    blank: sample("jar-blank.jpg"),
  });
  // Red was doubtful: the tool offers a first bath of two minutes at the owner's risk, no longer one.
  await add("10:15:00", "bath", { ...BATH, minutes: 2, note: FIRST_BATH_NOTE }, jar(1));
  await add("10:30:00", "bath", RINSE, jar(2));
  await add("10:45:00", "bath", { ...RINSE, repeated: ["minutes", "temperatureC"] }, jar(3));
  await add("10:55:00", "step", {
    what: "out on the support fabric, between blotters under weight; blotters changed after 15 minutes and 1 hour",
    area: null,
    bleed: null,
  });
  await add("18:30:00", "after", { ...scan, stage: "washed" }, { scan: sample("after.png") });
}
