import { BATH_ERROR_PER_CM, DEFAULT_LIMITS } from "../../calibration/priors.ts";
import { SOLUTION_OVER_PRINT } from "../../calibration/sheet-model.ts";
import { benchFactor, type FinishedInk } from "../bath/benchFactor.ts";
import { bathSeries, type Series, type Forecast } from "../bath/bathSeries.ts";
import { classifyInk } from "../bath/classifyInk.ts";
import type { Evidence, EvidenceBath, EvidenceInk, Limits } from "../bath/evidence.ts";
import { FAST_LOST_DENSITY } from "../bath/fastBound.ts";
import { hiddenLosses } from "../bath/hiddenLosses.ts";
import { type InkShare, inkShareOf, type ReadBath } from "../bath/inkShareOf.ts";
import { type Blot, choosePalette, type OwnSoil, type Palette } from "../bath/palette.ts";
import { fadeModel, predictFade, type FadePrediction, type Range } from "../bath/predictFade.ts";
import type { BathReading } from "../bath/reading.ts";
import { soilFromStrip } from "../bath/soilFromStrip.ts";
import type { Triple } from "../numeric/triple.ts";
import type { Warning } from "../errors.ts";
import type { FadeResult, InkClass } from "../results/advice.ts";
import type { Advice } from "./advice.ts";
import { blotFor } from "./blotFor.ts";
import { decide } from "./decide.ts";
import { inkStatus } from "./inkStatus.ts";
import { riskOfExceeding } from "./riskOfExceeding.ts";
import type {
  BathState,
  BleedReport,
  BlotTest,
  FadeForecast,
  InkState,
  Liquid,
} from "./treatmentState.ts";

export type { FadeResult };

/** A jar photo as the measurement gave it. Fields of a `JarReading` fit. */
export interface AssessedPhoto extends BathReading {
  /** beta, per cm; makes brown particles a candidate where it is a notable part. */
  readonly turbidityIndexPerCm?: number;
  /** One of {@link UNTRUSTED} makes the figure one that is shown, and not built upon. */
  readonly warnings?: readonly Warning[];
}

export interface AssessInput {
  /** null: nothing is known beside the photos. */
  readonly evidence: Evidence | null;
  /** One a photo, in bath order; null for a photo that was refused. Empty before the first bath. */
  readonly photos: readonly (AssessedPhoto | null)[];
  /**
   * What was stated of each photo's bath, one a photo; used whether or not the photo can be, and without evidence too. Default: the
   * evidence's.
   */
  readonly conditions?: readonly EvidenceBath[];
  /** Id of each bath's event in the record, one a photo: named where something has to be added. Default: none. */
  readonly bathEvents?: readonly string[];
  /** Bath in which unprinted paper soaked, where there is one. */
  readonly strip?: BathReading | null;
  /** Finished treatments of this bench. */
  readonly finished?: readonly FinishedInk[];
  /** Blotter tests by ink with their liquids; default: the evidence's results, made in the very liquid, before the first bath. */
  readonly tests?: ReadonlyMap<string, readonly BlotTest[]>;
  /** Bleeding seen or offset, by ink. */
  readonly bleeding?: ReadonlyMap<string, readonly BleedReport[]>;
  /** Place of each bath in the course of the treatment, to compare with tests and reports; default 0, 1, 2 ... */
  readonly bathOrders?: readonly number[];
  /** The bath being considered; default the same as the last. */
  readonly next?: Liquid | null;
  /** false: the bath doesn't hold what left this sheet (float, screen, blotter or gel washing; a bath shared by two objects). */
  readonly massBalance?: boolean;
  /** Inks that were tested or seen to bleed but are on no scan: they count in the advice, nothing is computed for them. */
  readonly otherInks?: readonly InkState[];
  /** Default: the evidence's. */
  readonly limits?: Limits;
  /** Names of events of the record that can't be read: no go-ahead rests on a record with a hole. */
  readonly damagedEvents?: readonly string[];
  /** Names of the bench's notes that can't be read: its factor is not known. */
  readonly unreadableNotes?: readonly string[];
  /** The washed sheet was scanned dry after its last bath: the treatment is finished. */
  readonly dryScan?: boolean;
  /** The card of the before scan is the printed strip. */
  readonly stripCard?: boolean;
}

/**
 * Warnings under which an amount may be more than was read: the camera was at its end, the turbidity past its range so that dirt and dissolved
 * colour can't be told apart, or the bath clearer than its blank.
 */
const UNTRUSTED: ReadonlySet<string> = new Set(["saturated", "above-range", "order-swapped"]);

type Triplet = readonly [low: number, mid: number, high: number];

export interface AssessedBath {
  /** null for a photo that was refused or holds no figure. */
  readonly inkShare: InkShare | null;
  readonly components: Readonly<Record<string, Triplet>> | null;
  readonly warnings: readonly Warning[];
}

/** Body of the jar result beside the optics: what the baths mean and what to do. */
export interface Assessment {
  readonly baths: readonly AssessedBath[];
  /** By ink id; null where it can't be predicted. */
  readonly fade: Readonly<Record<string, FadeResult | null>>;
  readonly nextBath: Readonly<Record<string, Triplet>> | null;
  readonly advice: Advice;
  readonly warnings: readonly Warning[];
}

/** kappa of the optics, and the part of the strongest band from which particles count as a colour of their own. */
const KAPPA = 1.55;
const NOTABLE_PARTICLES = 0.1;
/** Middle of what a fast ink may give before anything was seen, as part of its bound: a stain may be anything up to its grade's edge. */
const FAST_MIDDLE = 0.5;

/**
 * From jar readings and evidence to ink share, fade, next bath and advice.
 * @throws {RangeError} Evidence or conditions describe another number of baths than there are photos.
 */
export function assessBaths(input: AssessInput): Assessment {
  const { photos, evidence } = input;
  const stated = statedOf(input);
  const soilOfStrip = input.strip ? soilFromStrip(input.strip) : null;
  const blots = stated.map((bath, i) => blotsOf(input, bath, i));
  const read = photos.map((photo, i) => {
    if (
      photo === null ||
      ![...photo.absorbancePerCm, ...photo.absorbanceSigma].every(Number.isFinite)
    )
      return null;
    const palette = paletteOf(input, blots[i], soilOfStrip, stated[i].volumeMl);
    return inkShareOf(photo, { ...palette, silt: isTurbid(photo) }, blots[i]);
  });
  const baths = bathsOf(input, stated, read);
  const ids = evidence?.inks.map(({ id }) => id) ?? [];
  const volumeMl = referenceMl(evidence, stated);
  const seriesOf = (id: string): Series | null =>
    evidence === null || baths.length === 0
      ? null
      : bathSeries(
          baths.map(({ conditions, read: bath }) => ({
            ...conditions,
            perCm: bath?.components.get(id) ?? null,
          })),
          evidence.wetSheetMl,
          volumeMl,
          input.next?.minutes ?? null,
        );
  const series = new Map(["soil", ...ids].map((id) => [id, seriesOf(id)] as const));
  const limits = input.limits ?? evidence?.limits ?? DEFAULT_LIMITS;
  const unbounded = unboundedText(blots);
  const inks =
    evidence?.inks.map((ink) =>
      judgeInk({
        ink,
        input,
        paperLab: evidence.paperLab,
        volumeMl,
        limits,
        unbounded,
        baths,
        series: series.get(ink.id) ?? null,
      }),
    ) ?? [];

  const soil = series.get("soil") ?? null;
  const advice = decide({
    inks: [...inks.map(({ state }) => state), ...(input.otherInks ?? [])],
    baths: baths.map(({ state }) => state),
    next: input.next ?? null,
    limits,
    gain:
      soil?.total && soil.forecasts.length > 0
        ? {
            next: middleOf(soil.forecasts, Math.min),
            soFar: soil.total.mid,
            noise: BATH_ERROR_PER_CM,
          }
        : null,
    damagedEvents: input.damagedEvents ?? [],
    unreadableNotes: input.unreadableNotes ?? [],
    finished: input.dryScan ?? false,
    stripCard: input.stripCard ?? false,
  });
  const nexts = [...series].flatMap(([id, one]) =>
    one && one.forecasts.length > 0 ? [[id, nextOf(one.forecasts, id)] as const] : [],
  );
  return {
    baths: read.map((bath, i) => ({
      inkShare: bath?.inkShare ?? null,
      components: bath && componentsOf(bath, ids),
      warnings: [...(photos[i]?.warnings ?? []), ...(bath?.warnings ?? [])],
    })),
    fade: Object.fromEntries(inks.map(({ state, fade }) => [state.id, fade])),
    nextBath: nexts.length > 0 ? Object.fromEntries(nexts) : null,
    advice,
    warnings: read.flatMap((bath) => bath?.warnings ?? []),
  };
}

/**
 * Whether what an ink gave to a bath is bounded by nothing, because no test covers it: three bands then leave any part of the colour to it,
 * so no ink's loss can be told from its own.
 */
function unboundedText(blots: readonly ReadonlyMap<string, Blot>[]): string | null {
  for (const [i, bath] of blots.entries())
    for (const [id, blot] of bath)
      if (blot === "untested")
        return `no blotter test of ${id} covers bath ${String(i + 1)}, so what came of ${id} can't be told from the rest`;
  return null;
}

const middleOf = (forecasts: readonly Forecast[], pick: (...mids: number[]) => number): number =>
  pick(...forecasts.map(({ amount }) => amount.mid));

/** All that the next bath may hold: of soil, which is hoped for, the middle is the least; of an ink the most. */
function nextOf(forecasts: readonly Forecast[], id: string): Triplet {
  return [
    Math.min(...forecasts.map(({ amount }) => amount.low)),
    middleOf(forecasts, id === "soil" ? Math.min : Math.max),
    Math.max(...forecasts.map(({ amount }) => amount.high)),
  ];
}

/** What was stated of each photo's bath; where nothing was, nothing but that it was a wash. */
function statedOf({ photos, evidence, conditions }: AssessInput): readonly EvidenceBath[] {
  const stated = conditions ?? evidence?.baths ?? [];
  if (stated.length > 0 && stated.length !== photos.length)
    throw new RangeError(
      `Expected conditions of ${photos.length} photos, received ${stated.length} baths.`,
    );
  if (stated.length > 0) return stated;
  return photos.map(() => ({
    kind: "wash",
    surfactant: null,
    minutes: null,
    temperatureC: null,
    ph: null,
    volumeMl: evidence?.bathVolumeMl ?? null,
    settled: false,
  }));
}

/** Volume to which the amounts of all baths are scaled; any does, as long as it is one. */
function referenceMl(evidence: Evidence | null, stated: readonly EvidenceBath[]): number | null {
  return (
    evidence?.bathVolumeMl ?? stated.find(({ volumeMl }) => volumeMl !== null)?.volumeMl ?? null
  );
}

/** What the blotters say of each ink in one bath; without tests that name their liquids, the evidence's word. */
function blotsOf(
  { evidence, tests, bathOrders }: AssessInput,
  bath: EvidenceBath,
  i: number,
): ReadonlyMap<string, Blot> {
  return new Map(
    evidence?.inks.map(({ id, blot }) => {
      const own = tests?.get(id);
      return [id, own === undefined ? blot : blotFor(own, bath, bathOrders?.at(i) ?? i)];
    }),
  );
}

/** Without evidence every colourant is possible. */
function paletteOf(
  { evidence }: AssessInput,
  blots: ReadonlyMap<string, Blot>,
  ownSoil: OwnSoil | null,
  volumeMl: number | null,
): Palette {
  if (evidence !== null) {
    const inks = evidence.inks.map((ink) => ({ ...ink, blot: blots.get(ink.id) ?? "untested" }));
    return choosePalette(inks, evidence.paperLab, ownSoil, volumeMl);
  }
  const colourants = ["red", "pink", "blue", "violet", "yellow", "carbon"] as const;
  return {
    inks: colourants.map((colourant) => ({
      id: colourant,
      inkClass: "unknown",
      colourants: [colourant],
      alternatives: [],
      boundPerCm: null,
    })),
    ownSoil,
    silt: false,
  };
}

function isTurbid({ turbidityIndexPerCm = 0, absorbancePerCm }: AssessedPhoto): boolean {
  return KAPPA * turbidityIndexPerCm > NOTABLE_PARTICLES * Math.max(...absorbancePerCm);
}

const tripletOf = ({ low, mid, high }: Range): Triplet => [low, mid, high];

function componentsOf(bath: ReadBath, ids: readonly string[]): Record<string, Triplet> {
  return Object.fromEntries(
    ["soil", ...ids].flatMap((id) => {
      const range = bath.components.get(id);
      return range === undefined ? [] : [[id, tripletOf(range)]];
    }),
  );
}

interface TreatedBath {
  readonly conditions: Omit<EvidenceBath, "settled">;
  readonly state: BathState;
  /** null where the photo can't be built upon. */
  readonly read: ReadBath | null;
  readonly order: number;
}

/** Photos to baths: a settled second photo takes the place of its bath's first, whose haze it has lost. */
function bathsOf(
  { photos, bathOrders, bathEvents }: AssessInput,
  stated: readonly EvidenceBath[],
  read: readonly (ReadBath | null)[],
): readonly TreatedBath[] {
  const baths: TreatedBath[] = [];
  photos.forEach((photo, i) => {
    const { settled, ...conditions } = stated[i];
    const doubted = photo?.warnings?.some(({ code }) => UNTRUSTED.has(code)) ?? false;
    const used = doubted ? null : read[i];
    const before = settled ? baths.pop() : undefined;
    const kept = before?.conditions ?? conditions;
    const either = used ?? before?.read ?? null;
    const event = before === undefined ? (bathEvents?.at(i) ?? null) : before.state.event;
    baths.push({
      conditions: kept,
      state: { ...kept, event, usable: either !== null },
      read: either,
      order: before?.order ?? bathOrders?.at(i) ?? i,
    });
  });
  return baths;
}

interface InkCase {
  readonly ink: EvidenceInk;
  readonly input: AssessInput;
  readonly paperLab: Triple;
  /** Volume that the series' amounts are scaled to; null: not known. */
  readonly volumeMl: number | null;
  readonly limits: Limits;
  /** Why what came of one ink can't be told from another; null where it can. */
  readonly unbounded: string | null;
  readonly baths: readonly TreatedBath[];
  readonly series: Series | null;
}

function judgeInk(inkCase: InkCase): {
  readonly state: InkState;
  readonly fade: FadeResult | null;
} {
  const { ink, input, paperLab, volumeMl, limits, unbounded, baths, series } = inkCase;
  const { id, lab, areaCm2, stainedAreaCm2, blot } = ink;
  const { finished = [], massBalance = true } = input;
  const { inkClass, colourants } = classifyInk(lab, paperLab);
  const bench = benchFactor(finished, inkClass);
  const model = fadeModel(lab, paperLab, colourants);
  const tests = input.tests?.get(id) ?? [{ result: blot, liquid: null, order: -1 }];

  // Before the first bath a fast blotter bounds the density that one would take: area and volume cancel.
  const before = baths.length === 0;
  const fastAmount = SOLUTION_OVER_PRINT * FAST_LOST_DENSITY * areaCm2;
  const soFar: Range | null = !before
    ? (series?.total ?? null)
    : inkStatus({ tests, bleeding: [], contradicted: false }, input.next ?? null).state === "fast"
      ? { low: 0, mid: FAST_MIDDLE * fastAmount, high: fastAmount }
      : null;
  const scaleMl = before ? 1 : volumeMl;
  // An ink that the model can't tell from the paper has no fade to predict; that is no fade of nothing.
  const total = massBalance && model.density > 0 && unbounded === null ? soFar : null;
  const predict = (peakPerCm: Range, area: number): FadePrediction | null =>
    scaleMl === null
      ? null
      : predictFade({ model, peakPerCm, volumeMl: scaleMl, areaCm2: area, bench });

  const forecasts = before ? [NO_BATH] : series?.rising === null ? [] : (series?.forecasts ?? []);
  const fades = forecasts.flatMap(({ amount: { mid: next }, logSd }): readonly FadeForecast[] => {
    if (total === null) return [];
    const after = { ...total, mid: total.mid + next, high: total.high + next };
    // Where only some regions stained, they are the ones that reach the limit first.
    const risk = predict(after, stainedAreaCm2 ?? areaCm2);
    return risk === null
      ? []
      : [
          {
            medianDeltaE00: risk.medianForRisk,
            benchLogSd: bench.logSd,
            shareLogSd: risk.logSdOfShare,
            nextShare: after.mid > 0 ? next / after.mid : 0,
            nextLogSd: logSd,
          },
        ];
  });
  const rising: readonly BleedReport[] =
    series?.rising === true ? [{ how: "rising", order: baths[baths.length - 1].order }] : [];
  return {
    state: {
      id,
      tests,
      bleeding: [...(input.bleeding?.get(id) ?? []), ...rising],
      contradicted: baths.some(({ read }) => read?.contradicted.includes(id)),
      fade: worstOf(fades, limits.maxDeltaE00),
      whyNoFade: unbounded,
      hiddenLoss: hiddenLosses([ink], paperLab).at(0)?.text ?? null,
    },
    fade: total && fadeResult(total, areaCm2, stainedAreaCm2, inkClass, predict),
  };
}

/** Before the first bath nothing is added to what a fast ink may lose in it. */
const NO_BATH: Forecast = { amount: { low: 0, mid: 0, high: 0 }, logSd: 0 };

/** The forecast with the largest risk; null where there is none, or one whose risk can't be said. */
function worstOf(fades: readonly FadeForecast[], maxDeltaE00: number): FadeForecast | null {
  const risks = fades.map((fade) => riskOfExceeding(fade, maxDeltaE00));
  if (risks.includes(null)) return null;
  const worst = Math.max(...risks.map((risk) => risk ?? 1));
  return fades.find((_, i) => risks[i] === worst) ?? null;
}

function fadeResult(
  total: Range,
  areaCm2: number,
  stainedAreaCm2: number | null,
  inkClass: InkClass,
  predict: (peakPerCm: Range, area: number) => FadePrediction | null,
): FadeResult | null {
  const of = (area: number) => {
    const predicted = predict(total, area);
    if (predicted === null) return null;
    const { low, mid, high, modelDeltaE00 } = predicted;
    return [low, mid, high, modelDeltaE00].every(Number.isFinite)
      ? { low, mid, high, modelDeltaE00 }
      : null;
  };
  const whole = of(areaCm2);
  return (
    whole && {
      ...whole,
      inkClass,
      stainedOnly: stainedAreaCm2 === null ? null : of(stainedAreaCm2),
    }
  );
}
