import { BATH_ERROR_PER_CM, DEFAULT_LIMITS, FAST_INK_PER_CM } from "../../calibration/priors.ts";
import { benchFactor, type FinishedInk } from "../bath/benchFactor.ts";
import { bathSeries, type Series } from "../bath/bathSeries.ts";
import type { Evidence, EvidenceBath, EvidenceInk, Limits } from "../bath/evidence.ts";
import { hiddenLosses } from "../bath/hiddenLosses.ts";
import { type InkShare, inkShareOf, type ReadBath } from "../bath/inkShareOf.ts";
import { choosePalette, type Palette } from "../bath/palette.ts";
import { fadeModel, predictFade, type FadePrediction, type Range } from "../bath/predictFade.ts";
import type { BathReading } from "../bath/reading.ts";
import { soilFromStrip } from "../bath/soilFromStrip.ts";
import type { Warning } from "../errors.ts";
import type { FadeResult, InkClass } from "../results/advice.ts";
import type { Advice } from "./advice.ts";
import { decide } from "./decide.ts";
import type { BathState, BleedReport, BlotTest, InkState, Liquid } from "./treatmentState.ts";

export type { FadeResult };

/** A jar photo as the measurement gave it. Fields of a `JarReading` fit. */
export interface AssessedPhoto extends BathReading {
  /** beta, per cm; makes brown particles a candidate where it is a notable part. */
  readonly turbidityIndexPerCm?: number;
  /** A `saturated` one makes the figure a lower bound: it is shown, and not built upon. */
  readonly warnings?: readonly Warning[];
}

export interface AssessInput {
  /** null: nothing is known beside the photos. */
  readonly evidence: Evidence | null;
  /** One a photo, in bath order; null for a photo that was refused. Empty before the first bath. */
  readonly photos: readonly (AssessedPhoto | null)[];
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
}

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
/** Middle of what a fast ink may give before anything was seen: a quarter of its bound. */
const FAST_MIDDLE = 0.25;

/**
 * From jar readings and evidence to ink share, fade, next bath and advice.
 * @throws {RangeError} The evidence describes another number of baths than there are photos.
 */
export function assessBaths(input: AssessInput): Assessment {
  const { photos, evidence } = input;
  if (evidence !== null && evidence.baths.length > 0 && evidence.baths.length !== photos.length)
    throw new RangeError(
      `Expected the evidence to describe ${photos.length} photos, received ${evidence.baths.length} baths.`,
    );
  const palette = paletteOf(input);
  const blots = new Map(evidence?.inks.map(({ id, blot }) => [id, blot]));
  const read = photos.map((photo) =>
    photo === null || ![...photo.absorbancePerCm, ...photo.absorbanceSigma].every(Number.isFinite)
      ? null
      : inkShareOf(photo, { ...palette, silt: isTurbid(photo) }, blots),
  );
  const baths = bathsOf(input, read);
  const ids = evidence?.inks.map(({ id }) => id) ?? [];
  const volumeMl = evidence?.bathVolumeMl ?? NaN;
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
  const inks =
    evidence?.inks.map((ink) => judgeInk(ink, input, palette, baths, series.get(ink.id) ?? null)) ??
    [];

  const soil = series.get("soil") ?? null;
  const advice = decide({
    inks: [...inks.map(({ state }) => state), ...(input.otherInks ?? [])],
    baths: baths.map(({ state }) => state),
    next: input.next ?? null,
    limits: input.limits ?? evidence?.limits ?? DEFAULT_LIMITS,
    gain:
      soil?.next && soil.total
        ? { next: soil.next.mid, soFar: soil.total.mid, noise: BATH_ERROR_PER_CM }
        : null,
  });
  const nexts = [...series].flatMap(([id, one]) =>
    one?.next ? [[id, tripletOf(one.next)] as const] : [],
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

/** Without evidence every colourant is possible. */
function paletteOf({ evidence, strip }: AssessInput): Palette {
  const ownSoil = strip ? soilFromStrip(strip) : null;
  if (evidence !== null) return choosePalette(evidence.inks, evidence.paperLab, ownSoil);
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
  readonly conditions: {
    readonly kind: "wash" | "rinse";
    readonly surfactant: boolean | null;
    readonly ph: number | null;
    readonly temperatureC: number | null;
    readonly minutes: number | null;
    readonly volumeMl: number;
  };
  readonly state: BathState;
  /** null where the photo can't be built upon. */
  readonly read: ReadBath | null;
  readonly order: number;
}

/** Photos to baths: a settled second photo takes the place of its bath's first, whose haze it has lost. */
function bathsOf(
  { evidence, photos, bathOrders }: AssessInput,
  read: readonly (ReadBath | null)[],
): readonly TreatedBath[] {
  const unstated: Omit<EvidenceBath, "surfactant"> & { readonly surfactant: boolean | null } = {
    kind: "wash",
    surfactant: null,
    minutes: null,
    temperatureC: null,
    ph: null,
    volumeMl: evidence?.bathVolumeMl ?? NaN,
    settled: false,
  };
  const baths: TreatedBath[] = [];
  photos.forEach((photo, i) => {
    const { settled, ...conditions } = evidence?.baths.at(i) ?? unstated;
    const saturated = photo?.warnings?.some(({ code }) => code === "saturated") ?? false;
    const used = saturated ? null : read[i];
    const before = settled ? baths.pop() : undefined;
    const kept = before?.conditions ?? conditions;
    const either = used ?? before?.read ?? null;
    baths.push({
      conditions: kept,
      state: { ...kept, usable: either !== null },
      read: either,
      order: before?.order ?? bathOrders?.at(i) ?? i,
    });
  });
  return baths;
}

function judgeInk(
  ink: EvidenceInk,
  input: AssessInput,
  palette: Palette,
  baths: readonly TreatedBath[],
  series: Series | null,
): { readonly state: InkState; readonly fade: FadeResult | null } {
  const { id, lab, areaCm2, stainedAreaCm2, blot } = ink;
  const { evidence, finished = [], massBalance = true } = input;
  const paperLab = evidence?.paperLab ?? lab;
  const candidate = palette.inks.find((one) => one.id === id);
  const inkClass = candidate?.inkClass ?? "unknown";
  const bench = benchFactor(finished, inkClass);
  const volumeMl = evidence?.bathVolumeMl ?? NaN;
  const model = fadeModel(lab, paperLab, candidate?.colourants ?? []);
  const predict = (peakPerCm: Range, area: number): FadePrediction =>
    predictFade({ model, peakPerCm, volumeMl, areaCm2: area, bench });

  // Before the first bath a fast blotter bounds what one would take.
  const soFar: Range | null =
    baths.length > 0
      ? (series?.total ?? null)
      : blot === "fast"
        ? { low: 0, mid: FAST_MIDDLE * FAST_INK_PER_CM, high: FAST_INK_PER_CM }
        : null;
  const total = massBalance ? soFar : null;
  const next = series?.next?.mid ?? 0;
  const afterNext = total && { low: total.low, mid: total.mid + next, high: total.high + next };
  // Where only some regions stained, they are the ones that reach the limit first.
  const risk = afterNext && predict(afterNext, stainedAreaCm2 ?? areaCm2);
  const rising: readonly BleedReport[] =
    series?.rising === true ? [{ how: "rising", order: baths[baths.length - 1].order }] : [];
  return {
    state: {
      id,
      tests: input.tests?.get(id) ?? [{ result: blot, liquid: null, order: -1 }],
      bleeding: [...(input.bleeding?.get(id) ?? []), ...rising],
      contradicted: baths.some(({ read }) => read?.contradicted.includes(id)),
      fade: risk && {
        medianDeltaE00: risk.medianForRisk,
        benchLogSd: bench.logSd,
        shareLogSd: risk.logSdOfShare,
        nextShare: afterNext !== null && afterNext.mid > 0 ? next / afterNext.mid : 0,
        nextLogSd: series?.nextLogSd ?? 0,
      },
      hiddenLoss: hiddenLosses([ink], paperLab).at(0)?.text ?? null,
    },
    fade: total && fadeResult(total, areaCm2, stainedAreaCm2, inkClass, predict),
  };
}

function fadeResult(
  total: Range,
  areaCm2: number,
  stainedAreaCm2: number | null,
  inkClass: InkClass,
  predict: (peakPerCm: Range, area: number) => FadePrediction,
): FadeResult {
  const of = (area: number) => {
    const { low, mid, high, modelDeltaE00 } = predict(total, area);
    return { low, mid, high, modelDeltaE00 };
  };
  return {
    ...of(areaCm2),
    inkClass,
    stainedOnly: stainedAreaCm2 === null ? null : of(stainedAreaCm2),
  };
}
