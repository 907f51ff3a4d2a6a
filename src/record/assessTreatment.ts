import { resolve } from "node:path";
import { type Assessment, assessBaths } from "../advice/assessBaths.ts";
import type { BlotTest, InkState } from "../advice/treatmentState.ts";
import type { FinishedInk } from "../bath/benchFactor.ts";
import type { Evidence, EvidenceBath } from "../bath/evidence.ts";
import type { Triple } from "../numeric/triple.ts";
import type { Warning } from "../errors.ts";
import { type BenchNotes, readBench, recordKey } from "./bench.ts";
import { gradeBlot, type KeptBlot } from "./gradeBlot.ts";
import { evidenceOfRecord } from "./evidenceOfRecord.ts";
import type { OpenRecord } from "./openRecord.ts";
import { type PrintedInk, printedInks } from "./printedInks.ts";
import { type KeptReading, readBath } from "./readBath.ts";
import { surveyedSides } from "./surveyedSides.ts";
import { bleedingByInk, testsByInk } from "./testsByInk.ts";
import { type BathEvent, inputOf } from "./treatment.ts";
import { statedConditions } from "./statedConditions.ts";

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

function samePhoto(one: BathEvent, other: BathEvent): boolean {
  const [a, b] = [one, other].map((event) => inputOf(event, "spent")?.sha256);
  return a !== undefined && a === b;
}

/** A photo shows one bath: for a second one it says nothing. */
function photoOf(first: BathEvent): KeptReading {
  const refused = {
    code: "same-picture" as const,
    message: `Its spent photo is that of the bath of event ${first.id}: what this bath took is not known.`,
    remedy: `Give it its own photos (lastrinse bath RECORD --photo-for), or withdraw it if it was recorded twice.`,
  };
  return { reading: null, refused, warnings: [] };
}

/** What the bench should have taught and could not. */
function benchWarnings(bench: string | null, { unreadable, missing }: BenchNotes): Warning[] {
  const message = missing
    ? `The bench folder ${bench ?? ""} is not there: either no treatment was finished at it yet, or it moved and what it taught is not used.`
    : `Of the bench, ${unreadable.join(", ")} can't be read: what that treatment taught is not known.`;
  return missing || unreadable.length > 0 ? [{ code: "bench-unread", message }] : [];
}

/** Whether the washed sheet was scanned dry after its last bath; a damp one isn't finished. */
function scannedDry({ washed, finished, baths }: OpenRecord["treatment"]): boolean {
  const lastBath = baths.at(-1)?.order ?? 0;
  return [...washed.values(), ...finished.values()].some(
    ({ order, settings }) => order > lastBath && settings.state === "dry",
  );
}

/**
 * Whether other faces were scanned but not the front, which holds most of the ink: what came of it into the bath would be laid to the little
 * that was seen. An evidence file tells of all inks and their areas.
 */
export function frontMissing({ before, baths }: OpenRecord["treatment"]): boolean {
  const told = baths.some((bath) => inputOf(bath, "evidence") !== undefined);
  return before.size > 0 && !before.has("front") && !told;
}

/** An ink that was named by a test or a report but is on no scan. */
export function unscannedInk(
  id: string,
  tests: readonly BlotTest[],
  bleeding: InkState["bleeding"],
): InkState {
  return { id, tests, bleeding, contradicted: false, fade: null, hiddenLoss: null };
}

/**
 * Puts together what a record knows before the next bath: inks, tests, baths, fade, next bath, advice.
 * Works from the blotter tests alone where nothing was scanned yet.
 */
export async function assessTreatment(record: OpenRecord): Promise<TreatmentAssessment> {
  const { treatment } = record;
  const { colours, paperLab, warnings } = await surveyedSides(record);
  const graded = await Promise.all(treatment.blots.map((event) => gradeBlot(record, event)));
  const withdrawn = await Promise.all(
    treatment.withdrawnBlots.map((event) => gradeBlot(record, event)),
  );
  const tests = testsByInk(graded, withdrawn);
  const bleeding = bleedingByInk(treatment.steps);
  const baths: AssessedBathEvent[] = [];
  for (const event of treatment.baths) {
    const first = baths.find(({ event: other }) => samePhoto(other, event))?.event;
    const kept = first === undefined ? await readBath(record, event) : photoOf(first);
    baths.push({ event, ...kept });
  }
  const { bench } = treatment.opened.settings;
  const notes =
    bench === null
      ? { finished: [], unreadable: [], missing: false }
      : await readBench(resolve(record.folder, bench), recordKey(treatment.opened));
  const { finished, unreadable } = notes;

  const inks = paperLab === null ? [] : printedInks(colours, paperLab);
  const evidence = await evidenceOfRecord(
    record,
    paperLab === null ? null : { inks, paperLab },
    tests,
  );
  const known = new Set(evidence?.inks.map(({ id }) => id));
  // An evidence file may know less than the scan: what it leaves out was seen on the cover all the same.
  const others = [...new Set([...inks.map(({ id }) => id), ...tests.keys(), ...bleeding.keys()])]
    .filter((id) => !known.has(id))
    .map((id) => unscannedInk(id, tests.get(id) ?? [], bleeding.get(id) ?? []));
  const conditions = evidence?.baths ?? statedConditions(treatment.baths);
  const assessment = assessBaths({
    evidence,
    conditions,
    photos: baths.map(({ reading }) => reading),
    finished,
    tests: new Map([...known].map((id) => [id, tests.get(id) ?? []])),
    bleeding,
    bathOrders: baths.map(({ event }) => event.order),
    bathEvents: baths.map(({ event }) => event.id),
    unreadableNotes: unreadable,
    damagedEvents: record.damaged.map(({ file }) => file.replace(/\.json$/, "")),
    otherInks: others,
    massBalance: !frontMissing(treatment),
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
    warnings: [
      ...record.warnings,
      ...warnings,
      ...benchWarnings(bench, notes),
      ...refusals(baths, graded),
      ...assessment.warnings,
    ],
  };
}
