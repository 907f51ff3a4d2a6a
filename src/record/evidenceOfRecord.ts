import { WET_SHEET_ML } from "../../calibration/priors.ts";
import type { BlotTest } from "../advice/treatmentState.ts";
import type { Evidence, EvidenceInk } from "../bath/evidence.ts";
import type { Blot } from "../bath/palette.ts";
import { readEvidenceFile } from "../bath/readEvidenceFile.ts";
import type { Triple } from "../numeric/triple.ts";
import { type OpenRecord, unchangedInput } from "./openRecord.ts";
import type { PrintedInk } from "./printedInks.ts";
import { statedConditions } from "./statedConditions.ts";
import { inputOf } from "./treatment.ts";

/** The result that counts for an ink before any bath: the last test's. The liquids are judged by the advice. */
function lastResult(tests: readonly BlotTest[] | undefined): Blot {
  return tests?.at(-1)?.result ?? "untested";
}

/** The evidence file given with the last bath that came with one; null where none did. */
export async function evidenceFileOf({
  folder,
  treatment,
}: Pick<OpenRecord, "folder" | "treatment">): Promise<Evidence | null> {
  const input = treatment.baths.flatMap((bath) => inputOf(bath, "evidence") ?? []).at(-1);
  return input === undefined ? null : readEvidenceFile(await unchangedInput(folder, input));
}

/**
 * What the record knows beside its jar photos. An evidence file given with a bath replaces what it knows of paper, inks and wet
 * sheet; baths, tests and limits stay. A bath whose volume nobody stated has the one of that file, or none.
 * @param scanned Inks and paper of the before scans; null where nothing was scanned or no paper was found.
 * @returns null where neither a scan nor a file tells of the inks.
 */
export async function evidenceOfRecord(
  record: OpenRecord,
  scanned: { readonly inks: readonly PrintedInk[]; readonly paperLab: Triple } | null,
  tests: ReadonlyMap<string, readonly BlotTest[]>,
): Promise<Evidence | null> {
  const { baths, opened } = record.treatment;
  const { limits } = opened.settings;
  const conditions = statedConditions(baths);
  const own = await evidenceFileOf(record);
  if (own !== null)
    return {
      ...own,
      baths: conditions.map((bath) => ({ ...bath, volumeMl: bath.volumeMl ?? own.bathVolumeMl })),
      limits,
    };
  if (scanned === null) return null;
  return {
    bathVolumeMl: conditions.find(({ volumeMl }) => volumeMl !== null)?.volumeMl ?? null,
    wetSheetMl: WET_SHEET_ML,
    paperLab: scanned.paperLab,
    inks: scanned.inks.map(({ id, lab, areaCm2 }): EvidenceInk => ({
      id,
      lab,
      areaCm2,
      blot: lastResult(tests.get(id)),
      stainedAreaCm2: null,
    })),
    baths: conditions,
    unprintedStrip: null,
    limits,
  };
}
