import type { Triple } from "../numeric/triple.ts";
import type { SurveyedInk } from "../compare/surveyScan.ts";
import type { Warning } from "../errors.ts";
import { SIDES } from "./event.ts";
import type { OpenRecord } from "./openRecord.ts";
import { surveyOf } from "./surveyOf.ts";
import type { Side } from "./treatment.ts";

const SIDE_WORDS: Readonly<Record<Side, string>> = {
  front: "front",
  back: "back",
  "inside-front": "inside of the front",
  "inside-back": "inside of the back",
};

/** What the before scans show together. */
export interface SurveyedSides {
  readonly colours: readonly SurveyedInk[];
  /** CIELAB D50 of the first side with bare paper; null where none has. */
  readonly paperLab: Triple | null;
  readonly warnings: readonly Warning[];
}

/** The colours of all scanned sides, and a warning that names the sides which were not. */
export async function surveyedSides(record: OpenRecord): Promise<SurveyedSides> {
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
