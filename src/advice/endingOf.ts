import { listOf } from "../bath/shareText.ts";
import type { Reason } from "./advice.ts";
import { inkStatus } from "./inkStatus.ts";
import type { Liquid, TreatmentState } from "./treatmentState.ts";

/** What the sheet ends on once cleaning stops. */
export type Ending =
  | { readonly what: "dry"; readonly why: string }
  | {
      readonly what: "alkaline-bath";
      readonly ph: number;
      readonly temperatureC: number;
      readonly minutes: number;
      readonly lastPh: number;
    };

/** From this pH on a bath leaves an alkaline reserve worth the name (common practice, no source). */
const LEAST_ALKALINE_PH = 8;
const GAIN_ONLY = new Set(["gain-below-least", "gain-not-known"]);

const dry = (why: string): Ending => ({ what: "dry", why });

/**
 * Whether a last alkaline bath is owed, from the record: only where risk leaves room for one more bath, the last one is known not to have
 * been alkaline, and every ink is fast in an alkaline liquid.
 * @param against What speaks against another cleaning bath.
 */
export function endingOf({ baths, inks }: TreatmentState, against: readonly Reason[]): Ending {
  const lastPh = baths.at(-1)?.ph ?? null;
  if (!against.every(({ code }) => GAIN_ONLY.has(code))) return dry("");
  if (lastPh === null)
    return dry("Its pH is not stated, so whether an alkaline reserve stays is not known.");
  if (lastPh >= LEAST_ALKALINE_PH) return dry(`It had pH ${lastPh}, so an alkaline reserve stays.`);
  const hidden = inks.filter(({ hiddenLoss }) => hiddenLoss !== null).map(({ id }) => id);
  if (hidden.length > 0)
    return dry(
      `No last alkaline bath either: alkali may change ${listOf(hidden)} where it stands. No reserve stays.`,
    );
  const liquid = testedAlkaline({ baths, inks });
  return liquid === null
    ? dry("No last alkaline bath either: not every ink was tested in one. No reserve stays.")
    : { what: "alkaline-bath", ...liquid, lastPh };
}

/** A fully stated alkaline liquid in which every ink tested fast; null where there is none. */
function testedAlkaline({ inks }: Pick<TreatmentState, "baths" | "inks">) {
  const named = inks.map((ink) => ({
    ...ink,
    tests: ink.tests.filter(({ liquid }) => liquid !== null),
  }));
  for (const { liquid } of named.flatMap(({ tests }) => tests)) {
    if (liquid === null) continue;
    const { ph, temperatureC, minutes } = liquid;
    if (ph === null || temperatureC === null || minutes === null || ph < LEAST_ALKALINE_PH)
      continue;
    const plain: Liquid = { surfactant: false, ph, temperatureC, minutes };
    if (named.every((ink) => inkStatus(ink, plain).state === "fast"))
      return { ph, temperatureC, minutes };
  }
  return null;
}
