import type { JarReading } from "../../src/jar/jarReading.ts";
import type { Colourant } from "../../calibration/colourants.ts";
import { DEFAULT_LIMITS } from "../../calibration/priors.ts";
import { DEFAULT_CARD_NAME } from "../../src/card/cards.ts";
import { xyzD50ToLab } from "../../src/colour/lab.ts";
import { reflectanceToXyzD50 } from "../../src/colour/spectrum.ts";
import type { Triple } from "../../src/numeric/triple.ts";
import type { Warning } from "../../src/errors.ts";
import { gradeBlotterSpot } from "../../src/blotter/gradeBlotterSpot.ts";
import type { BlotterReading } from "../../src/blotter/measureBlotter.ts";
import type { Random } from "../../src/numeric/random.ts";
import {
  type EventKind,
  eventSchema,
  type RecordEvent,
  type Settings,
} from "../../src/record/event.ts";
import type { KeptReading, RefusedPhoto } from "../../src/record/readBath.ts";
import type { KeptSurvey } from "../../src/record/surveyOf.ts";
import { wetReflectance } from "../../sample-images/jar/renderBlotterPhoto.ts";
import { spectrumOf } from "../../sample-images/jar/bands.ts";
import { DYES } from "../../sample-images/jar/liquids.ts";
import { drawBench, type JarTruth, readJar } from "./drawJar.ts";
import { drawWashout } from "./drawWashout.ts";

/** A whole treatment as its events, with what its pictures would have said: only the reading of pictures is replaced. */
export interface DrawnRecord {
  readonly course: Course;
  readonly events: readonly RecordEvent[];
  /** By the name under which the record keeps it: `000002-survey`, `000003-blot`, `000007-jar`. */
  readonly kept: ReadonlyMap<string, unknown>;
}

/** What kind of treatment it is; any of them may have gaps. */
export type Course =
  "sound" | "doubtful" | "bleeding" | "rising" | "surfactant-last" | "gaps" | "weak-tests";

const COURSES: readonly (readonly [weight: number, Course])[] = [
  [0.64, "sound"],
  [0.07, "doubtful"],
  [0.1, "bleeding"],
  [0.04, "rising"],
  [0.05, "surfactant-last"],
  [0.05, "gaps"],
  [0.05, "weak-tests"],
];

/** Inks as a cover prints them: CIELAB D50, and the colourant that leaves with the bath. */
const INKS: readonly (readonly [id: string, lab: Triple, colourant: Colourant])[] = [
  ["red", [59.8, 45.3, 34], "red"],
  ["blue", [53, -25, -22], "blue"],
  ["yellow", [76.5, 3, 62], "yellow"],
  ["black", [30, 1.5, 6], "carbon"],
];
const PAPER: Triple = [78, 3, 19];

/** Peak absorbance of a blotter spot by how fast the ink is: grades 5 and 4-5, 4, and below. */
const SPOTS = { fast: [0.005, 0.045], doubtful: [0.06, 0.075], bleeds: [0.15, 0.4] } as const;
type Seen = keyof typeof SPOTS;

/** Transmission density that an ink loses to the first bath, by how fast it is. */
const LOSSES: Readonly<Record<Seen, readonly [number, number]>> = {
  fast: [0, 0.004],
  doubtful: [0.01, 0.06],
  bleeds: [0.03, 0.12],
};

const BATH_COUNTS = [0, 0, 1, 1, 1, 2, 2, 2, 3, 3, 4];
const REFERENCE_ML = 500;
const REFUSED: RefusedPhoto = {
  code: "overexposed",
  message: "Expected stripes that are not burnt out.",
  remedy: "Photograph the jar again, darker.",
};

interface Strength {
  readonly surfactant: boolean;
  readonly ph: number;
  readonly temperatureC: number;
  readonly minutes: number;
}

/** A treatment in the course of its baths, drawn from a seed: scans, blotter tests, baths with and without photos, bleeding seen. */
export function drawRecord(random: Random): DrawnRecord {
  const course = drawCourse(random);
  const events: RecordEvent[] = [];
  const kept = new Map<string, unknown>();
  const chance = (p: number): boolean => random.uniform() < p;
  const between = (low: number, high: number): number => low + (high - low) * random.uniform();
  const within = ([low, high]: readonly [number, number]): number => between(low, high);
  const rounded = (value: number, digits = 1): number => Number(value.toFixed(digits));
  const statedShare = course === "gaps" ? 0.75 : 0.997;
  const stated = <T>(value: T): T | null => (chance(statedShare) ? value : null);
  const add = <Kind extends EventKind>(
    kind: Kind,
    settings: Settings<Kind>,
    roles: readonly string[] = [],
  ): string => {
    const id = String(events.length + 1).padStart(6, "0");
    events.push(
      eventSchema.parse({
        schema: "lastrinse.event",
        version: 1,
        id,
        kind,
        at: `2026-05-04T10:${String(events.length).padStart(2, "0")}:00+02:00`,
        program: "test",
        inputs: roles.map((role) => ({
          role,
          file: `${id}-${role}.png`,
          bytes: 9,
          sha256: id.padStart(64, "0"),
        })),
        settings,
      }),
    );
    return id;
  };

  const inks = INKS.filter(() => chance(0.6)).map(([id, lab, colourant]) => {
    const seen = drawSeen(random, course);
    return {
      id,
      colourant,
      seen,
      lab: lab.map((value) => rounded(value + 1.5 * random.normal(), 2)) as unknown as Triple,
      areaCm2: rounded(15 * 8 ** random.uniform()),
      lostDensity: within(LOSSES[seen]),
    };
  });
  if (inks.length === 0) return drawRecord(random);

  add("opened", {
    title: "Tales of the Slack Tide",
    object: stated("one cover, consent given"),
    bench: null,
    jar: "flat",
    insideMm: 50,
    passes: 1,
    limits: { ...DEFAULT_LIMITS, ...(chance(0.3) ? { maxDeltaE00: rounded(between(1, 4)) } : {}) },
  });
  for (const side of ["front", "back"] as const) {
    if (!chance(side === "front" ? 0.94 : 0.15)) continue;
    const id = add(
      "before",
      {
        side,
        card: DEFAULT_CARD_NAME,
        corners: null,
        state: "dry",
        stateAssumed: false,
        dpi: null,
        page: null,
      },
      ["scan"],
    );
    const survey: KeptSurvey = {
      paperLab: PAPER,
      inks: inks.map((ink) => ({
        id: ink.id,
        kind: ink.id === "black" ? "black" : "ink",
        lab: ink.lab,
        areaCm2: side === "front" ? ink.areaCm2 : rounded(0.3 * ink.areaCm2),
      })),
      warnings: [],
    };
    kept.set(`${id}-survey`, survey);
  }

  const baths = drawBaths(random, course);
  // A test is made before the first bath, in a liquid chosen for the strongest that is planned.
  const planned: readonly Strength[] =
    baths.length > 0 ? baths : [{ surfactant: true, ph: 8.2, temperatureC: 30, minutes: 5 }];
  const most = (pick: (one: Strength) => number): number => Math.max(...planned.map(pick));
  const strongest: Strength = {
    surfactant: planned.some(({ surfactant }) => surfactant),
    ph: most(({ ph }) => ph),
    temperatureC: most(({ temperatureC }) => temperatureC),
    minutes: most(({ minutes }) => minutes),
  };
  const test = (ink: (typeof inks)[number], seen: Seen, short: number): void => {
    const withPhoto = chance(0.5);
    const word = !withPhoto || chance(0.4) ? seen : null;
    const id = add(
      "blot",
      {
        ink: ink.id,
        result: word,
        liquid: stated("the wash bath itself"),
        surfactant: stated(strongest.surfactant && !(short > 0 && chance(0.3))),
        ph: stated(rounded(strongest.ph - short * between(0, 1) + between(-0.2, 0.3))),
        temperatureC: stated(
          rounded(strongest.temperatureC - 8 * short * between(0, 1) + between(-1, 3)),
        ),
        minutes: stated(
          rounded(Math.max(1, strongest.minutes - 3 * short * between(0, 1) + random.below(3))),
        ),
        site: stated("lower left"),
        card: withPhoto ? DEFAULT_CARD_NAME : null,
        spotBox: null,
        controlBox: null,
      },
      withPhoto ? ["photo"] : [],
    );
    if (!withPhoto) return;
    const refused = chance(0.02);
    const reading = refused ? null : blotterReading(ink.colourant, within(SPOTS[seen]));
    kept.set(`${id}-blot`, {
      reading,
      refused: refused ? { ...REFUSED, code: "spots-not-found" } : null,
    });
    // A photo that shows more than the word corrects it, as the command does.
    const event = events[events.length - 1];
    if (event.kind !== "blot" || word === null || reading === null) return;
    const order: readonly Seen[] = ["fast", "doubtful", "bleeds"];
    if (order.indexOf(reading.verdict) > order.indexOf(word))
      events[events.length - 1] = {
        ...event,
        settings: { ...event.settings, result: reading.verdict },
      };
  };
  const short = course === "weak-tests" ? 1 : 0;
  for (const ink of inks) {
    if (chance(course === "gaps" ? 0.25 : 0.01)) continue;
    // Some try a weak liquid first.
    if (chance(0.1)) test(ink, "fast", 1);
    test(ink, ink.seen, short);
    if (chance(0.05)) test(ink, ink.seen, 0);
  }

  const bench = drawBench(random);
  const soil = drawWashout(random, baths.length, 0.03 * 3 ** random.uniform());
  const washouts = new Map(
    inks.map(({ id, areaCm2, lostDensity }) => [
      id,
      drawWashout(random, baths.length, (lostDensity * areaCm2) / REFERENCE_ML),
    ]),
  );
  const rising = course === "rising" ? inks[random.below(inks.length)].id : null;
  baths.forEach((bath, i) => {
    const scale = REFERENCE_ML / bath.volumeMl;
    const truth: JarTruth = {
      soil: soil[i] * scale,
      inks: Object.fromEntries(
        inks.map(({ id, colourant }) => [
          colourant,
          id === rising ? 0.004 * 2 ** i * scale : (washouts.get(id)?.[i] ?? 0) * scale,
        ]),
      ),
    };
    const hasPhoto = chance(course === "gaps" ? 0.85 : 0.985);
    const { kind, surfactant, ph, temperatureC, minutes, volumeMl } = bath;
    const id = add(
      "bath",
      {
        kind,
        surfactant,
        composition: stated("water brought to its pH with limewater"),
        minutes: stated(minutes),
        temperatureC: stated(temperatureC),
        volumeMl: stated(volumeMl),
        phIn: stated(ph),
        phOut: chance(0.5) ? rounded(ph - 0.4) : null,
        agitation: chance(0.5) ? "tray rocked gently" : null,
        foam: chance(0.3) ? "none" : null,
        note: chance(0.2) ? "lid on" : null,
        repeated: [],
        card: null,
      },
      hasPhoto ? ["spent", "blank"] : [],
    );
    const reading = jarReading(random, truth, bench);
    if (hasPhoto)
      kept.set(
        `${id}-jar`,
        chance(0.02)
          ? ({ reading: null, refused: REFUSED, warnings: [] } satisfies KeptReading)
          : ({ reading, refused: null, warnings: reading.warnings } satisfies KeptReading),
      );
  });
  if (course === "bleeding" && chance(0.6)) {
    const ink = inks[random.below(inks.length)];
    add("step", { what: `${ink.id} is bleeding`, area: null, bleed: ink.id }, ["photo"]);
    if (chance(0.3)) test(ink, "fast", 0);
  } else if (chance(0.5)) add("step", { what: "blotters changed", area: null, bleed: null });
  return { course, events, kept };
}

function drawCourse(random: Random): Course {
  let left = random.uniform();
  for (const [weight, course] of COURSES) if ((left -= weight) < 0) return course;
  return "sound";
}

function drawSeen(random: Random, course: Course): Seen {
  const at = random.uniform();
  if (course === "bleeding") return at < 0.3 ? "bleeds" : at < 0.5 ? "doubtful" : "fast";
  if (course === "doubtful") return at < 0.5 ? "doubtful" : "fast";
  return "fast";
}

interface DrawnBath extends Strength {
  readonly kind: "wash" | "rinse";
  readonly volumeMl: number;
}

function drawBaths(random: Random, course: Course): readonly DrawnBath[] {
  const count = BATH_COUNTS[random.below(BATH_COUNTS.length)];
  const surfactantFirst = random.uniform() < 0.35 && count > 1;
  const ph = 7.6 + 0.9 * random.uniform();
  const temperatureC = 26 + 10 * random.uniform();
  const minutes = 3 + random.below(4);
  const volumeMl = [400, 500, 500, 800][random.below(4)];
  const one = (digits: number, value: number): number => Number(value.toFixed(digits));
  return Array.from({ length: count }, (_, i): DrawnBath => {
    const surfactant =
      (surfactantFirst && i === 0) || (course === "surfactant-last" && i === count - 1);
    // Most benches repeat a bath; some change it on the way.
    const other = random.uniform() < 0.2;
    return {
      kind:
        surfactant || (i === 0 && !surfactantFirst) || random.uniform() < 0.6 ? "wash" : "rinse",
      surfactant,
      ph: one(1, ph - (other ? random.uniform() : 0)),
      temperatureC: one(0, temperatureC - (other ? 8 * random.uniform() : 0)),
      minutes: other ? Math.max(1, minutes - random.below(3)) : minutes,
      volumeMl: other ? volumeMl * (1 + random.below(2)) : volumeMl,
    };
  });
}

/** A blotter spot with the ink in it against the liquid alone, graded as a photo of it would be. */
function blotterReading(colourant: Colourant, peak: number): BlotterReading {
  const lab = (density: number): Triple => {
    const spectrum =
      colourant === "carbon" || colourant === "silt" ? spectrumOf(() => 1) : DYES[colourant];
    return xyzD50ToLab(reflectanceToXyzD50(wetReflectance(spectrum.map((one) => density * one))));
  };
  const spot = (density: number) =>
    ({ lab: lab(density), boxPixels: [10, 10, 50, 50], sigmaDeltaE00: 0.1 }) as const;
  const [control, stained] = [spot(0), spot(peak)];
  return { ...gradeBlotterSpot(control.lab, stained.lab), control, spot: stained };
}

function jarReading(
  random: Random,
  truth: JarTruth,
  bench: ReturnType<typeof drawBench>,
): JarReading {
  const { reading } = readJar(random, truth, bench);
  const { absorbancePerCm, absorbanceSigma, pathCm } = reading;
  const warnings: Warning[] =
    random.uniform() < 0.02
      ? [{ code: "saturated", message: "Too dark for this jar: at least this much." }]
      : [];
  const turbidity = 0.002 * random.uniform() ** 2;
  return {
    file: "jar.jpg",
    absorbancePerCm,
    absorbanceSigma,
    displayAbsorbancePerCm: absorbancePerCm,
    attenuationWidePerCm: absorbancePerCm,
    attenuationNarrowPerCm: absorbancePerCm,
    turbidityIndexPerCm: turbidity,
    turbidityIndexSigma: 0.1 * turbidity,
    turbidityBeyondRange: false,
    turbidityFnu: null,
    turbidityFnuSigma: null,
    pathCm,
    tone: { kind: "srgb", amplitude: 0, gamma: 1, offset: 0, worstGrey: 0 },
    warnings,
  };
}
