import type { Advice } from "../advice/advice.ts";
import { assessBaths, type FadeResult } from "../advice/assessBaths.ts";
import type { BlotTest } from "../advice/treatmentState.ts";
import { benchFactor } from "../bath/benchFactor.ts";
import type { Limits } from "../bath/evidence.ts";
import type { InkShare } from "../bath/inkShareOf.ts";
import type { Blot } from "../bath/palette.ts";
import type { CompareResult } from "../results/compareResult.ts";
import { LastrinseError, type Warning } from "../errors.ts";
import type { Progress } from "../progress.ts";
import {
  assessTreatment,
  frontMissing,
  type TreatmentAssessment,
  unscannedInk,
} from "./assessTreatment.ts";
import { checkPrediction } from "./checkPrediction.ts";
import type { PredictionCheck } from "../results/prediction.ts";
import { compareSides } from "./compareSides.ts";
import { type RecordEvent, type Settings, SIDES } from "./event.ts";
import { gradeBlot } from "./gradeBlot.ts";
import type { OpenRecord } from "./openRecord.ts";
import type { RefusedPhoto } from "./readBath.ts";
import { scanSources } from "./surveyOf.ts";
import { bleedingByInk } from "./testsByInk.ts";
import { thumbnailOf } from "./thumbnailOf.ts";
import { inputOf, type BathEvent, type Side } from "./treatment.ts";

type Figure = number | null;
type Triplet = readonly [low: number, mid: number, high: number];

/** What the photo of one jar says. Bands r, g, b; per cm, decadic. */
export interface JarFigures {
  readonly file: string;
  readonly absorbancePerCm: readonly Figure[];
  readonly absorbanceSigma: readonly Figure[];
  readonly turbidityIndexPerCm: Figure;
  readonly turbidityIndexSigma: Figure;
  readonly turbidityBeyondRange: boolean;
  readonly turbidityFnu: Figure;
  readonly turbidityFnuSigma: Figure;
}

export interface BathView {
  readonly id: string;
  readonly at: string;
  /** `repeated` names the conditions taken over from an earlier bath. */
  readonly settings: Settings<"bath">;
  readonly hasPhoto: boolean;
  readonly jar: JarFigures | null;
  readonly refused: RefusedPhoto | null;
  readonly inkShare: InkShare | null;
  /** Peak absorbance per cm by ink id and "soil", 90 % range. */
  readonly components: Readonly<Record<string, Triplet>> | null;
  /** Predicted fade of all baths up to this one, by ink; null where it can't be predicted. */
  readonly fadeSoFar: Readonly<Record<string, Triplet | null>>;
  /** What the record advised before this bath, from what was written before it, as this version says it. */
  readonly adviceBefore: Pick<Advice, "verdict" | "headline" | "sheetNow">;
  readonly warnings: readonly Warning[];
  /** JPEG bytes; null where there is no photo, or it moved or changed. */
  readonly spentPhoto: Uint8Array | null;
  readonly blankPhoto: Uint8Array | null;
}

export interface BlotView {
  readonly id: string;
  readonly at: string;
  readonly settings: Settings<"blot">;
  /** What counts; null where neither word nor photo gave a result. */
  readonly result: Blot | null;
  readonly hasPhoto: boolean;
  readonly refused: RefusedPhoto | null;
  readonly photo: Uint8Array | null;
}

/** Pictures of one comparison as PNG bytes, all on the lattice of the before scan. */
export interface ComparisonPngs {
  readonly before: Uint8Array;
  readonly after: Uint8Array;
  readonly difference: Uint8Array;
  /** Map of the ink part; null without a measured paper. */
  readonly inkPart: Uint8Array | null;
  /** 8-bit labels of the inks; 255 paper, 0 not measured. */
  readonly inks: Uint8Array;
}

export interface ComparisonView {
  readonly side: Side;
  readonly stage: "washed" | "finished";
  /** When the after scan was recorded. */
  readonly at: string;
  /** null: no figure can be given; `refused` says why. */
  readonly compared: { readonly result: CompareResult; readonly pictures: ComparisonPngs } | null;
  readonly refused: RefusedPhoto | null;
}

export interface BenchView {
  readonly factor: number;
  readonly low: number;
  readonly high: number;
  readonly treatments: number;
}

/** Everything that a report of a treatment shows, as plain values. */
export interface TreatmentView {
  /** "final" once a washed, dry side was scanned. */
  readonly kind: "interim" | "final";
  readonly title: string;
  readonly object: string | null;
  readonly program: string;
  readonly limits: Limits;
  readonly advice: Advice;
  readonly fade: Readonly<Record<string, FadeResult | null>>;
  /** By ink; what earlier treatments of this bench taught. */
  readonly bench: Readonly<Record<string, BenchView>>;
  readonly nextBath: Readonly<Record<string, Triplet>> | null;
  readonly baths: readonly BathView[];
  readonly blots: readonly BlotView[];
  /** Every event as it was written, in order. */
  readonly events: readonly RecordEvent[];
  /** Picture of the first scanned side before washing, PNG; null where there is none. */
  readonly beforePicture: { readonly side: Side; readonly png: Uint8Array } | null;
  readonly scannedBefore: readonly Side[];
  readonly scannedAfter: readonly Side[];
  readonly comparisons: readonly ComparisonView[];
  /** null before a washed scan of the front, or without baths. */
  readonly prediction: PredictionCheck | null;
  readonly warnings: readonly Warning[];
}

/**
 * Gathers what a record knows for its report. Long results come from the record's own folder where they are still good.
 * @throws {LastrinseError} An input that is needed has moved or changed and nothing was kept of it.
 */
export async function viewTreatment(
  record: OpenRecord,
  progress?: Progress,
): Promise<TreatmentView> {
  const { treatment } = record;
  progress?.report("reading the baths", 0);
  const assessed = await assessTreatment(record);
  const { assessment, warnings } = assessed;
  const comparisons = await compareAll(record, progress);
  progress?.report("gathering", 0.95);
  const { title, object, limits } = treatment.opened.settings;
  const { fade, nextBath, advice } = assessment;
  const front = comparisons.find(({ side, stage }) => side === "front" && stage === "washed");
  const prediction =
    front === undefined || front.compared === null || treatment.baths.length === 0
      ? null
      : checkPrediction(
          fade,
          front.compared.result,
          treatment.baths[0].at.slice(0, 10),
          limits.maxDeltaE00,
        );
  return {
    kind: treatment.washed.size > 0 ? "final" : "interim",
    title,
    object,
    program: record.program,
    limits,
    advice,
    fade,
    bench: benchByInk(assessed),
    nextBath,
    baths: await Promise.all(
      treatment.baths.map((event, i) => viewBath(record, assessed, event, i)),
    ),
    blots: await viewBlots(record),
    events: record.events,
    beforePicture: await pictureBefore(record),
    scannedBefore: SIDES.filter((side) => treatment.before.has(side)),
    scannedAfter: SIDES.filter((side) => treatment.washed.has(side)),
    comparisons,
    prediction,
    warnings: uniqueWarnings(warnings),
  };
}

function uniqueWarnings(warnings: readonly Warning[]): Warning[] {
  return [...new Map(warnings.map((one) => [`${one.code} ${one.message}`, one])).values()];
}

function benchByInk({ assessment, finished }: TreatmentAssessment): Record<string, BenchView> {
  return Object.fromEntries(
    Object.entries(assessment.fade).flatMap(([id, one]) => {
      if (one === null) return [];
      const { factor, low, high, treatments } = benchFactor(finished, one.inkClass);
      return [[id, { factor, low, high, treatments }]];
    }),
  );
}

const finite = (value: number | null): Figure =>
  value !== null && Number.isFinite(value) ? value : null;

async function viewBath(
  record: OpenRecord,
  assessed: TreatmentAssessment,
  event: BathEvent,
  i: number,
): Promise<BathView> {
  const { folder } = record;
  const { reading, refused, warnings } = assessed.baths[i];
  const { inkShare, components, warnings: ownWarnings } = assessed.assessment.baths[i];
  const spent = inputOf(event, "spent");
  const blank = inputOf(event, "blank");
  return {
    id: event.id,
    at: event.at,
    settings: event.settings,
    hasPhoto: spent !== undefined && blank !== undefined,
    jar: reading && {
      file: spent?.file ?? reading.file,
      absorbancePerCm: reading.absorbancePerCm.map(finite),
      absorbanceSigma: reading.absorbanceSigma.map(finite),
      turbidityIndexPerCm: finite(reading.turbidityIndexPerCm),
      turbidityIndexSigma: finite(reading.turbidityIndexSigma),
      turbidityBeyondRange: reading.turbidityBeyondRange,
      turbidityFnu: finite(reading.turbidityFnu),
      turbidityFnuSigma: finite(reading.turbidityFnuSigma),
    },
    refused,
    inkShare,
    components,
    fadeSoFar: fadeUpTo(record, assessed, i + 1),
    adviceBefore: adviceBefore(record, assessed, event, i),
    warnings: uniqueWarnings([...warnings, ...ownWarnings]),
    spentPhoto: spent === undefined ? null : await thumbnailOf(folder, spent),
    blankPhoto: blank === undefined ? null : await thumbnailOf(folder, blank),
  };
}

/** The first baths of a treatment alone, for `assessBaths`. */
function firstBaths(
  { treatment }: OpenRecord,
  { evidence, conditions, baths, finished }: TreatmentAssessment,
  count: number,
) {
  const first = baths.slice(0, count);
  return {
    evidence: evidence && { ...evidence, baths: evidence.baths.slice(0, count) },
    photos: first.map(({ reading }) => reading),
    conditions: conditions.slice(0, count),
    finished,
    massBalance: !frontMissing(treatment),
    bathOrders: first.map(({ event }) => event.order),
    bathEvents: first.map(({ event }) => event.id),
  };
}

/** Predicted fade of the first baths alone, as it would have been said after them. */
function fadeUpTo(
  record: OpenRecord,
  assessed: TreatmentAssessment,
  count: number,
): Record<string, Triplet | null> {
  const { evidence, tests, baths, assessment } = assessed;
  if (evidence === null) return {};
  const { fade } =
    count === baths.length
      ? assessment
      : assessBaths({
          ...firstBaths(record, assessed, count),
          tests: scannedTests(assessed, tests),
        });
  return Object.fromEntries(
    Object.entries(fade).map(([id, one]) => [id, one && ([one.low, one.mid, one.high] as const)]),
  );
}

/** Tests of every scanned ink, with none for those that had none. */
function scannedTests(
  { evidence }: TreatmentAssessment,
  tests: ReadonlyMap<string, readonly BlotTest[]>,
): ReadonlyMap<string, readonly BlotTest[]> {
  return new Map(evidence?.inks.map(({ id }) => [id, tests.get(id) ?? []]));
}

/** The advice before a bath, from the tests, the bleeding and the baths that stood in the record before it. */
function adviceBefore(
  record: OpenRecord,
  assessed: TreatmentAssessment,
  { id: bath, order, settings }: BathEvent,
  i: number,
): Pick<Advice, "verdict" | "headline" | "sheetNow"> {
  const { treatment, damaged } = record;
  const tests = new Map(
    [...assessed.tests].map(([id, own]) => [id, own.filter((test) => test.order < order)]),
  );
  const bleeding = bleedingByInk(treatment.steps.filter((step) => step.order < order));
  const scanned = new Set(assessed.evidence?.inks.map(({ id }) => id));
  const others = [...assessed.inks.map(({ id }) => id), ...tests.keys(), ...bleeding.keys()].filter(
    (id) => !scanned.has(id),
  );
  const { surfactant, phIn: ph, temperatureC, minutes } = settings;
  const { advice } = assessBaths({
    ...firstBaths(record, assessed, i),
    damagedEvents: damaged
      .map(({ file }) => file.replace(/\.json$/, ""))
      .filter((name) => name < bath),
    tests: scannedTests(assessed, tests),
    bleeding,
    otherInks: [...new Set(others)].map((id) =>
      unscannedInk(id, tests.get(id) ?? [], bleeding.get(id) ?? []),
    ),
    limits: treatment.opened.settings.limits,
    // What was taken is known by now: it is judged as the bath that it was.
    next: { surfactant, ph, temperatureC, minutes },
  });
  const { verdict, headline, sheetNow } = advice;
  return { verdict, headline, sheetNow };
}

function viewBlots(record: OpenRecord): Promise<BlotView[]> {
  return Promise.all(
    record.treatment.blots.map(async (event) => {
      const { result, refused } = await gradeBlot(record, event);
      const photo = inputOf(event, "photo");
      return {
        id: event.id,
        at: event.at,
        settings: event.settings,
        result,
        hasPhoto: photo !== undefined,
        refused,
        photo: photo === undefined ? null : await thumbnailOf(record.folder, photo),
      };
    }),
  );
}

/** The picture that was kept when the before scan was looked at. */
async function pictureBefore(record: OpenRecord): Promise<TreatmentView["beforePicture"]> {
  for (const side of SIDES) {
    const scan = record.treatment.before.get(side);
    if (scan === undefined) continue;
    const nothingKept = () => Promise.reject(new RangeError("No picture was kept."));
    const sources = await scanSources(scan, record.program);
    const png = await record.store
      .keepBytes(`${scan.id}-picture`, sources, nothingKept)
      .catch(() => null);
    if (png !== null) return { side, png };
  }
  return null;
}

async function compareAll(record: OpenRecord, progress?: Progress): Promise<ComparisonView[]> {
  const { before, washed, finished } = record.treatment;
  const views: ComparisonView[] = [];
  for (const side of SIDES)
    for (const [stage, scans] of [
      ["washed", washed],
      ["finished", finished],
    ] as const) {
      const first = before.get(side);
      const after = scans.get(side);
      if (first === undefined || after === undefined) continue;
      const named = { side, stage, at: after.at };
      try {
        const compared = await compareSides(record, first, after, progress);
        views.push({ ...named, compared, refused: null });
      } catch (error) {
        if (!(error instanceof LastrinseError)) throw error;
        const { code, message, remedy } = error;
        views.push({ ...named, compared: null, refused: { code, message, remedy } });
      }
    }
  return views;
}
