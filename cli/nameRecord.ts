import type { Advice } from "../src/advice/advice.ts";
import { shellWord } from "./shellWord.ts";

/** An advice whose command lines name the record instead of saying RECORD, so that they work as they are printed. */
export function nameRecord(advice: Advice, folder: string): Advice {
  const named = (text: string): string => text.replaceAll(/\bRECORD\b/g, () => shellWord(folder));
  return {
    ...advice,
    reasons: advice.reasons.map((reason) => ({ ...reason, text: named(reason.text) })),
    mustDo: advice.mustDo.map(named),
    wouldChangeIt: advice.wouldChangeIt.map(named),
  };
}
