import { resolve } from "node:path";
import { type Assessment, assessBaths } from "../advice/assessBaths.ts";
import type { BlotTest, InkState } from "../advice/treatmentState.ts";
import type { FinishedInk } from "../bath/benchFactor.ts";
import type { Evidence, EvidenceBath, EvidenceInk } from "../bath/evidence.ts";
import type { Blot } from "../bath/palette.ts";
import { readEvidenceFile } from "../bath/readEvidenceFile.ts";
import { WET_SHEET_ML } from "../../calibration/priors.ts";
import type { Triple } from "../colour/triple.ts";
import type { SurveyedInk } from "../compare/surveyScan.ts";
import type { Warning } from "../errors.ts";
import { readBench, recordKey } from "./bench.ts";
import { gradeBlot, type KeptBlot } from "./gradeBlot.ts";
import { type OpenRecord, unchangedInput } from "./openRecord.ts";
import { type PrintedInk, printedInks } from "./printedInks.ts";
import { type KeptReading, readBath } from "./readBath.ts";
import { surveyOf } from "./surveyOf.ts";
import { bleedingByInk, testsByInk } from "./testsByInk.ts";
import { type BathEvent, inputOf, type Side } from "./treatment.ts";
import { SIDES } from "./event.ts";

/** A bath of the record with what its photo says. */
export interface AssessedBathEvent extends KeptReading {
  readonly event: BathEvent;
}

/** Everything that can be said of a treatment from what is in its record. */
export interface TreatmentAssessment {
  readonly assessment: Assessment;
  readonly evidence: Evidence | null;
  /** The inks as printed, over all scanned sides. */
  readonly inks: readonly PrintedInk[];
  readonly paperLab: Triple | null;
  readonly baths: readonly AssessedBathEvent[];
  /** What was stated of each bath. */
  readonly conditions: readonly EvidenceBath[];
  readonly tests: ReadonlyMap<string, readonly BlotTest[]>;
  readonly finished: readonly FinishedInk[];
  readonly warnings: readonly Warning[];
}

const SIDE_WORDS: Readonly<Record<Side, string>> = {
  front: "front",
  back: "back",
  "inside-front": "inside of the front",
  "inside-back": "inside of the back",
};

/** The colours of all scanned sides. */
async function surveyed(record: OpenRecord): Promise<{
  colours: SurveyedInk[];
  paperLab: Triple | null;
  warnings: Warning[];
}> {
  const colours: SurveyedInk[] = [];
  const warnings: Warning[] = [];
  let paperLab: Triple | null = null;
  for (const side of SIDES) {
    const scan = record.treatment.before.get(side);
    if (scan === undefined) continue;
    const survey = await surveyOf(record, scan);
    colours.push(...survey.inks);
    paperLab ??= survey.paperLab;
    warnings.push(...survey.warnings);
  }
  const missing = SIDES.filter((side) => !record.treatment.before.has(side));
  if (missing.length > 0 && missing.length < SIDES.length)
    warnings.push({
      code: "side-not-scanned",
      message: `Not scanned: ${missing.map((side) => SIDE_WORDS[side]).join(", ")}. If one of them is printed, its ink has shared the loss, and the fade shown here is overstated.`,
    });
  return { colours, paperLab, warnings };
}

/** The result that counts for an ink before any bath: the last test's. The liquids are judged by the advice. */
function lastResult(tests: readonly BlotTest[] | undefined): Blot {
  return tests?.at(-1)?.result ?? "untested";
}

/** Photos of the record that give no figure. */
function refusals(baths: readonly AssessedBathEvent[], blots: readonly KeptBlot[]): Warning[] {
  return [...baths, ...blots].flatMap(({ event, refused }) =>
    refused === null
      ? []
      : [
          {
            code: "not-measured" as const,
            message: `Event ${event.id}: its photo gives no figure. ${refused.message} ${refused.remedy}`,
          },
        ],
  );
}

/** What was stated of each bath. */
function conditionsOf(baths: readonly BathEvent[]): EvidenceBath[] {
  return baths.map(({ settings }) => ({
    kind: settings.kind,
    surfactant: settings.surfactant,
    minutes: settings.minutes,
    temperatureC: settings.temperatureC,
    ph: settings.phIn,
    volumeMl: settings.volumeMl,
    settled: false,
  }));
}

function evidenceOf(
  record: OpenRecord,
  inks: readonly PrintedInk[],
  paperLab: Triple,
  tests: ReadonlyMap<string, readonly BlotTest[]>,
): Evidence {
  const { baths, opened } = record.treatment;
  const volumes = baths.flatMap(({ settings }) => settings.volumeMl ?? []);
  const bathVolumeMl = volumes.at(0) ?? null;
  return {
    bathVolumeMl,
    wetSheetMl: WET_SHEET_ML,
    paperLab,
    inks: inks.map(({ id, lab, areaCm2 }): EvidenceInk => ({
      id,
      lab,
      areaCm2,
      blot: lastResult(tests.get(id)),
      stainedAreaCm2: null,
    })),
    baths: conditionsOf(baths),
    unprintedStrip: null,
    limits: opened.settings.limits,
  };
}

/** An evidence file given with a bath replaces what the record knows of paper, inks and wet sheet; baths and tests stay. */
async function withEvidenceFile(record: OpenRecord, evidence: Evidence): Promise<Evidence> {
  const bath = record.treatment.baths
    .filter((one) => inputOf(one, "evidence") !== undefined)
    .at(-1);
  const input = bath && inputOf(bath, "evidence");
  if (input === undefined) return evidence;
  const path = await unchangedInput(record.folder, input);
  const own = await readEvidenceFile(path);
  return { ...own, baths: evidence.baths, limits: evidence.limits };
}

/** An ink that was named by a test or a report but is on no scan. */
export function unscannedInk(
  id: string,
  tests: readonly BlotTest[],
  bleeding: InkState["bleeding"],
): InkState {
  return { id, tests, bleeding, contradicted: false, fade: null, hiddenLoss: null };
}

/** Whether the washed sheet was scanned dry after its last bath. */
function scannedDry({ washed, finished, baths }: OpenRecord["treatment"]): boolean {
  const lastBath = baths.at(-1)?.order ?? 0;
  return [...washed.values(), ...finished.values()].some(({ order }) => order > lastBath);
}

/**
 * Puts together what a record knows before the next bath: inks, tests, baths, fade, next bath, advice.
 * Works from the blotter tests alone where nothing was scanned yet.
 */
export async function assessTreatment(record: OpenRecord): Promise<TreatmentAssessment> {
  const { treatment } = record;
  const { colours, paperLab, warnings } = await surveyed(record);
  const graded = await Promise.all(treatment.blots.map((event) => gradeBlot(record, event)));
  const tests = testsByInk(graded);
  const bleeding = bleedingByInk(treatment.steps);
  const baths: AssessedBathEvent[] = [];
  for (const event of treatment.baths) baths.push({ event, ...(await readBath(record, event)) });
  const { bench } = treatment.opened.settings;
  const finished =
    bench === null
      ? []
      : await readBench(resolve(record.folder, bench), recordKey(treatment.opened));

  const inks = paperLab === null ? [] : printedInks(colours, paperLab);
  const evidence =
    paperLab === null
      ? null
      : await withEvidenceFile(record, evidenceOf(record, inks, paperLab, tests));
  const known = new Set(evidence?.inks.map(({ id }) => id));
  const others = [...new Set([...tests.keys(), ...bleeding.keys()])]
    .filter((id) => !known.has(id))
    .map((id) => unscannedInk(id, tests.get(id) ?? [], bleeding.get(id) ?? []));
  const conditions = conditionsOf(treatment.baths);
  const assessment = assessBaths({
    evidence,
    conditions,
    photos: baths.map(({ reading }) => reading),
    finished,
    tests: new Map([...known].map((id) => [id, tests.get(id) ?? []])),
    bleeding,
    bathOrders: baths.map(({ event }) => event.order),
    bathEvents: baths.map(({ event }) => event.id),
    otherInks: others,
    limits: treatment.opened.settings.limits,
    dryScan: scannedDry(treatment),
    stripCard: [...treatment.before.values()].some(({ settings }) => settings.card === "strip"),
  });
  return {
    assessment,
    evidence,
    inks,
    paperLab,
    baths,
    conditions,
    tests,
    finished,
    warnings: [...record.warnings, ...warnings, ...refusals(baths, graded), ...assessment.warnings],
  };
}
