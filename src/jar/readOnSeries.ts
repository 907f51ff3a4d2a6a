import type { TurbidityTie } from "../results/jarResult.ts";
import type { JarReading } from "./jarReading.ts";
import { basename } from "node:path";
import type { Warning } from "../errors.ts";
import { fnuOf } from "./turbidity/fnuOf.ts";
import { fnuSigma } from "./turbidity/fnuSigma.ts";
import { strengthOf } from "./turbidity/strengthOf.ts";

/** What a reading's turbidity index is, and how sure. */
type Index = Pick<JarReading, "turbidityIndexPerCm" | "turbidityIndexSigma">;

/** Bath and blank, each against the clear blank of the series. */
export interface AgainstClear {
  readonly bath: JarReading;
  readonly blank: JarReading;
}

/** Standard uncertainties above nothing at which a blank is called hazy. */
const HAZY = 2;

/**
 * The FNU-equivalent of a reading by the user's own series. Where the series has a clear blank of its own, bath and blank are each read on
 * it and subtracted: the index of one haze against another is no measure of their difference (40 against 20 FNU would read 10).
 * @param clear `null`: the series has no blank of its own, so that the blank of the baths stands for clear. `"unread"`: it has one, but
 *   bath or blank could not be read against it.
 */
export function readOnSeries(
  reading: JarReading,
  blankFile: string,
  tie: TurbidityTie,
  clear: AgainstClear | null | "unread",
): JarReading {
  if (tie.unit !== "FNU")
    return {
      ...reading,
      turbidityBeyondRange:
        reading.turbidityBeyondRange || reading.turbidityIndexPerCm > tie.largestIndex,
    };
  if (clear === "unread")
    return withNote(
      { ...reading, turbidityFnu: null, turbidityFnuSigma: null },
      `${basename(reading.file)} and its blank could not be read against the clear blank of the turbidity series (the jar stands elsewhere, or the light is another), so there is no FNU: photograph the series' blank again beside the baths.`,
    );
  if (clear === null)
    return {
      ...reading,
      turbidityFnu: fnuOf(tie, reading.turbidityIndexPerCm),
      turbidityFnuSigma: sigmaOf(tie, reading),
      turbidityBeyondRange:
        reading.turbidityBeyondRange || reading.turbidityIndexPerCm > tie.largestIndex,
    };
  const bath = strengthOf(tie, clear.bath.turbidityIndexPerCm);
  const blank = strengthOf(tie, clear.blank.turbidityIndexPerCm);
  const blankSigma = sigmaOf(tie, clear.blank) ?? NaN;
  const read = {
    ...reading,
    turbidityFnu: Math.max(0, bath - blank),
    turbidityFnuSigma: Math.hypot(sigmaOf(tie, clear.bath) ?? NaN, blankSigma),
    turbidityBeyondRange:
      clear.bath.turbidityBeyondRange || clear.bath.turbidityIndexPerCm > tie.largestIndex,
  };
  if (!(blank > HAZY * blankSigma)) return read;
  return withNote(
    read,
    `The blank ${basename(blankFile)} is hazy itself: ${blank.toFixed(1)} FNU by your series. The turbidity of ${basename(reading.file)} is what it has more: ${bath.toFixed(1)} less ${blank.toFixed(1)} FNU.`,
  );
}

function sigmaOf(tie: TurbidityTie, index: Index): number | null {
  return fnuSigma(tie, index.turbidityIndexPerCm, index.turbidityIndexSigma);
}

function withNote(reading: JarReading, message: string): JarReading {
  const note: Warning = { code: "turbid", message };
  return { ...reading, warnings: [...reading.warnings, note] };
}
