import type { Dye } from "../../calibration/colourants.ts";
import { assessBaths } from "../../src/advice/assessBaths.ts";
import { SCAN_LOG_SD, WITHIN_BENCH_LOG_SD } from "../../calibration/priors.ts";
import type { FinishedInk } from "../../src/bath/benchFactor.ts";
import { classifyInk } from "../../src/bath/classifyInk.ts";
import { fadeModel } from "../../src/bath/predictFade.ts";
import type { Evidence, EvidenceBath } from "../../src/bath/evidence.ts";
import type { BathReading } from "../../src/bath/reading.ts";
import { type Random, seededRandom } from "../../src/numeric/random.ts";
import { type DrawnPrint, drawPrint } from "./drawPrint.ts";
import { drawBench, type JarTruth, readJar } from "./drawJar.ts";
import { drawWashout } from "./drawWashout.ts";

const MOST_BATHS = 8;
const VOLUME_ML = 500;
const WET_SHEET_ML = 16;
const LIMIT = 2;
/** By eye: stop when a bath shows under a quarter of the first one's colour. */
const EYE_SHARE = 0.25;

/** Inks at stake, as `drawPrint` numbers them. */
const KINDS: readonly Dye[] = ["red", "pink", "blue", "violet", "yellow"];

/** Inks as a cover prints them, from a strong tint to a solid. */
const INK_DENSITIES = [0.3, 1] as const;

/**
 * Middle and log-sd of the transmission density that an ink loses to the first bath, by judgement: one bath alone exceeds the limit in
 * about one treatment of twelve (no rule that asks after a bath can prevent those), four in over a quarter.
 */
const FIRST_LOSS_DENSITY = 0.04;
const FIRST_LOSS_LOG_SD = 0.25;

export interface DrawnTreatment {
  readonly print: DrawnPrint;
  readonly areaCm2: number;
  /** True amounts each bath takes from the sheet, per cm. */
  readonly soil: readonly number[];
  readonly ink: readonly number[];
  /** Jar reading of each bath, carry-over included. */
  readonly readings: readonly BathReading[];
  readonly strip: BathReading;
  /** True fade after n baths, n = 0..MOST_BATHS. */
  readonly fadeAfter: readonly number[];
  readonly evidence: (baths: number) => Evidence;
}

export function drawTreatment(random: Random): DrawnTreatment {
  const kind = random.below(KINDS.length);
  const dye = KINDS[kind];
  const print = drawPrint(random, kind, INK_DENSITIES);
  const areaCm2 = 40 * 4 ** random.uniform();
  const soil = drawWashout(random, MOST_BATHS + 1, 0.03 * 3 ** random.uniform());
  const loss = FIRST_LOSS_DENSITY * Math.exp(FIRST_LOSS_LOG_SD * random.normal());
  const ink = drawWashout(random, MOST_BATHS + 1, (loss * areaCm2) / VOLUME_ML);
  const bench = drawBench(random);
  const carry = WET_SHEET_ML / VOLUME_ML;
  let [soilIn, inkIn] = [0, 0];
  const readings = soil.map((amount, i) => {
    soilIn = amount + soilIn * carry;
    inkIn = ink[i] + inkIn * carry;
    const truth: JarTruth = { soil: soilIn, inks: { [dye]: inkIn } };
    return readJar(random, truth, bench).reading;
  });
  const strip = readJar(random, { soil: 0.07, inks: {} }, bench).reading;
  let total = 0;
  const fadeAfter = [
    0,
    ...ink.map((amount) => print.fade(((total += amount) * VOLUME_ML) / areaCm2)),
  ];
  const wash: EvidenceBath = {
    kind: "wash",
    surfactant: false,
    minutes: 5,
    temperatureC: 30,
    ph: 8,
    volumeMl: VOLUME_ML,
    settled: false,
  };
  const evidence = (baths: number): Evidence => ({
    bathVolumeMl: VOLUME_ML,
    wetSheetMl: WET_SHEET_ML,
    paperLab: print.paperLab,
    inks: [{ id: dye, lab: print.inkLab, areaCm2, blot: "doubtful", stainedAreaCm2: null }],
    baths: Array.from({ length: baths }, () => wash),
    unprintedStrip: null,
    limits: { maxDeltaE00: LIMIT, risk: 0.1, minGain: 0.1 },
  });
  return { print, areaCm2, soil, ink, readings, strip, fadeAfter, evidence };
}

export interface PolicyOutcome {
  readonly exceeds: number;
  readonly soilRemoved: number;
  readonly baths: number;
  readonly p95Fade: number;
}

export interface StudyResult {
  readonly treatments: number;
  readonly policies: Readonly<Record<string, PolicyOutcome>>;
  /** Share of true next baths inside the stated range: soil, ink. */
  readonly nextSoilCoverage: number;
  readonly nextInkCoverage: number;
  /** Share of true fades inside the stated 90 % range, over every bath of the rule. */
  readonly fadeCoverage: number;
}

export interface StudyOptions {
  readonly treatments: number;
  readonly seed: number;
  /** Whether a bath of unprinted paper is photographed too. */
  readonly withStrip?: boolean;
  /** Finished treatments of this bench and kind of cover. Default 0. */
  readonly finishedJobs?: number;
}

/**
 * Treatments drawn from the priors, each washed by every policy (paired): fixed numbers of baths, by eye, and by the rule from its own jar
 * readings, blotter evidence true (one doubtful ink).
 */
export function simulateTreatments(options: StudyOptions): StudyResult {
  const { treatments, seed, withStrip = false, finishedJobs = 0 } = options;
  const random = seededRandom(seed);
  const policies: Record<string, { fade: number; soil: number; baths: number }[]> = {};
  const put = (name: string, drawn: DrawnTreatment, baths: number) => {
    const all = sum(drawn.soil.slice(0, MOST_BATHS));
    (policies[name] ??= []).push({
      fade: drawn.fadeAfter[baths],
      soil: sum(drawn.soil.slice(0, baths)) / all,
      baths,
    });
  };
  const inside = { soil: 0, ink: 0, fade: 0 };
  let asked = 0;
  for (let k = 0; k < treatments; k++) {
    const drawn = drawTreatment(random);
    put("always 2", drawn, 2);
    put("always 4", drawn, 4);
    put("by eye", drawn, bathsByEye(drawn));
    // Their own generator: the treatments stay the same whatever is known beside them.
    const finished = finishedOf(seededRandom(seed + 7919 * (k + 1)), drawn, finishedJobs);
    let baths = 0;
    for (let goOn = true; goOn && baths < MOST_BATHS;) {
      baths++;
      const result = assessBaths({
        photos: drawn.readings.slice(0, baths),
        evidence: drawn.evidence(baths),
        strip: withStrip ? drawn.strip : null,
        finished,
      });
      const [id] = Object.keys(result.fade);
      const fade = result.fade[id];
      asked++;
      if (fade && within(drawn.fadeAfter[baths], fade.low, fade.high)) inside.fade++;
      const soilRange = result.nextBath?.soil;
      const inkRange = result.nextBath?.[id];
      if (soilRange && within(drawn.soil[baths], soilRange[0], soilRange[2])) inside.soil++;
      if (inkRange && within(drawn.ink[baths], inkRange[0], inkRange[2])) inside.ink++;
      goOn = result.advice.verdict === "continue";
    }
    put("by the rule", drawn, baths);
  }
  return {
    treatments,
    policies: Object.fromEntries(
      Object.entries(policies).map(([name, outcomes]) => [name, outcomeOf(outcomes)]),
    ),
    nextSoilCoverage: inside.soil / asked,
    nextInkCoverage: inside.ink / asked,
    fadeCoverage: inside.fade / asked,
  };
}

const sum = (values: readonly number[]) => values.reduce((a, b) => a + b, 0);
const within = (value: number, low: number, high: number) => value >= low && value <= high;

function bathsByEye({ readings }: DrawnTreatment): number {
  const colour = (i: number) => sum(readings[i].absorbancePerCm);
  let baths = 1;
  while (baths < MOST_BATHS && colour(baths - 1) >= EYE_SHARE * colour(0)) baths++;
  return baths;
}

/**
 * Finished treatments of the same bench and kind of cover: what they measured over what the model said is this print's own ratio, scattered
 * within the bench and by the scan.
 */
function finishedOf(
  random: Random,
  { print }: DrawnTreatment,
  jobs: number,
): readonly FinishedInk[] {
  if (jobs === 0) return [];
  const { inkClass, colourants } = classifyInk(print.inkLab, print.paperLab);
  const modelDeltaE00 = fadeModel(print.inkLab, print.paperLab, colourants).deltaE00(TAUGHT_LOSS);
  const scatter = Math.hypot(WITHIN_BENCH_LOG_SD, SCAN_LOG_SD);
  return Array.from({ length: jobs }, (_, i) => ({
    day: `2026-01-${10 + i}`,
    inkClass,
    // Scaled to a fade large enough to teach.
    modelDeltaE00: 2,
    measuredDeltaE00:
      (2 * print.fade(TAUGHT_LOSS) * Math.exp(scatter * random.normal())) / modelDeltaE00,
    noiseDeltaE00: 0.2,
  }));
}

const TAUGHT_LOSS = 0.05;

function outcomeOf(
  outcomes: readonly { fade: number; soil: number; baths: number }[],
): PolicyOutcome {
  const n = outcomes.length;
  const fades = outcomes.map(({ fade }) => fade).sort((a, b) => a - b);
  return {
    exceeds: fades.filter((fade) => fade > LIMIT).length / n,
    soilRemoved: sum(outcomes.map(({ soil }) => soil)) / n,
    baths: sum(outcomes.map(({ baths }) => baths)) / n,
    p95Fade: fades[Math.min(n - 1, Math.floor(0.95 * n))],
  };
}
