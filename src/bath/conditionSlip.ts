import { WET_SHEET_ML } from "../../calibration/priors.ts";

/** What a person states of a bath or of the liquid of a test. */
export type Condition = "volumeMl" | "ph" | "temperatureC" | "minutes";

const BOUNDS: Readonly<Record<Condition, readonly [low: number, high: number, words: string]>> = {
  volumeMl: [0, 100_000, "a volume of at most 100 000 mL"],
  ph: [0, 14, "a pH from 0 to 14"],
  temperatureC: [-10, 100, "a temperature from -10 to 100 C"],
  minutes: [0.01, 10_000, "a time from 0.01 to 10 000 minutes"],
};

/** Baths of covers lie between these: a slip is only guessed to mean one of them. */
const TRAY_ML: readonly [number, number] = [50, 20_000];
const BATH_PH: readonly [number, number] = [4, 13];
const BATH_C: readonly [number, number] = [5, 95];
/** Boiling water in degrees Fahrenheit: no bath reads higher. */
const HIGHEST_F = 212;

const within = (value: number, [low, high]: readonly [number, number]): boolean =>
  value >= low && value <= high;

/** Rounded to what a person would have written: 101 F is 38.3 C. */
const written = (value: number): string => String(Math.round(10 * value) / 10);

/** What was probably meant: the first candidate that a bath may have. */
function meant(condition: Condition, value: number): string | null {
  switch (condition) {
    case "volumeMl":
      return value > 0 && within(1000 * value, TRAY_ML)
        ? `${written(1000 * value)} mL (${String(value)} litres)`
        : null;
    case "ph": {
      const found = [value / 10, value / 100].find((one) => within(one, BATH_PH));
      return found === undefined ? null : String(found);
    }
    case "temperatureC": {
      const celsius = (value - 32) / 1.8;
      if (value <= HIGHEST_F && within(celsius, BATH_C))
        return `${written(celsius)} C (${String(value)} F)`;
      return within(value / 10, BATH_C) ? `${String(value / 10)} C` : null;
    }
    case "minutes":
      return null;
  }
}

/**
 * A condition that no bath of a sheet can have, in words: a slip of the pen, with what was probably meant.
 * @param value As stated: mL, pH, degrees Celsius or minutes.
 * @param wetSheetMl Liquid that the wet sheet holds by itself, mL: a bath is more than that.
 * @returns null where the value may be true.
 * @example conditionSlip("ph", 85) // "expected a pH from 0 to 14, received 85: did you mean 8.5?"
 */
export function conditionSlip(
  condition: Condition,
  value: number,
  wetSheetMl: number = WET_SHEET_ML,
): string | null {
  const [low, high, words] = BOUNDS[condition];
  const tooLittle = condition === "volumeMl" && value <= wetSheetMl;
  if (!tooLittle && value >= low && value <= high) return null;
  const expected = tooLittle
    ? `more than the ${String(wetSheetMl)} mL that the wet sheet itself holds`
    : words;
  const guess = meant(condition, value);
  return `expected ${expected}, received ${String(value)}${guess === null ? "" : `: did you mean ${guess}?`}`;
}
