import type { z } from "zod";
import { adviceResult } from "./advice.ts";
import { cardList, cardSheet, shownCard } from "./card.ts";
import { cardCheck } from "./cardCheck.ts";
import { compareResult } from "./compareResult.ts";
import { demoResult } from "./demoResult.ts";
import { dryRun } from "./dryRun.ts";
import { errorResult } from "./errorResult.ts";
import { eventAdded } from "./eventAdded.ts";
import { exportResult } from "./exportResult.ts";
import { jarResult } from "./jarResult.ts";
import { plateTiles } from "./plateTiles.ts";
import { recipe } from "./recipe.ts";
import { reportWritten } from "./reportWritten.ts";
import type { ReadonlyOf } from "./readonlyOf.ts";
import { treatmentResult } from "./treatmentResult.ts";

/** Every object that a command prints or writes, by the name in its `schema` field after "lastrinse.". */
export const RESULT_SCHEMAS = {
  advice: adviceResult,
  card: shownCard,
  "card-check": cardCheck,
  "card-list": cardList,
  "card-sheet": cardSheet,
  compare: compareResult,
  demo: demoResult,
  "dry-run": dryRun,
  error: errorResult,
  "event-added": eventAdded,
  export: exportResult,
  jar: jarResult,
  "plate-tiles": plateTiles,
  recipe,
  report: reportWritten,
  treatment: treatmentResult,
} as const satisfies Readonly<Record<string, z.ZodType>>;

export type ResultName = keyof typeof RESULT_SCHEMAS;

/** What a command may print. */
export type PrintedResult = {
  [Name in ResultName]: ReadonlyOf<(typeof RESULT_SCHEMAS)[Name]>;
}[ResultName];
