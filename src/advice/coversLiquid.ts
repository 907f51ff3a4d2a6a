import type { Liquid } from "./treatmentState.ts";

/** A test serves a bath at most this much more alkaline and warmer than it was. */
export const PH_MARGIN = 0.3;
export const TEMPERATURE_MARGIN_C = 2;

/**
 * Whether a blotter test was made in a liquid at least as strong as a bath. What the bath doesn't state may be anything, so no test
 * covers it; what the test doesn't state may be nothing.
 * @returns null: it was. Else what is wrong, in words.
 */
export function coversLiquid(test: Liquid, bath: Liquid): string | null {
  return (
    surfactantShort(test.surfactant, bath.surfactant) ??
    short(
      "pH",
      test.ph,
      bath.ph,
      PH_MARGIN,
      (t, b) => `it was tested at pH ${t}, the bath has ${b}`,
    ) ??
    short(
      "temperature",
      test.temperatureC,
      bath.temperatureC,
      TEMPERATURE_MARGIN_C,
      (t, b) => `it was tested at ${t} °C, the bath has ${b}`,
    ) ??
    short(
      "time",
      test.minutes,
      bath.minutes,
      0,
      (t, b) => `it was tested for ${t} minutes, the bath lasts ${b}`,
    )
  );
}

/** A liquid without surfactant is the weakest, and a test with it serves any. */
function surfactantShort(test: boolean | null, bath: boolean | null): string | null {
  if (bath === false || test === true) return null;
  if (bath === null)
    return "nobody stated whether the bath holds surfactant, and the test held none";
  return test === false
    ? "it was tested without surfactant, the bath holds some"
    : "the test doesn't say whether its liquid held surfactant, the bath does";
}

function short(
  name: string,
  test: number | null,
  bath: number | null,
  margin: number,
  text: (test: number, bath: number) => string,
): string | null {
  if (bath === null)
    return test === null
      ? `neither its test nor the bath states the ${name}`
      : `the bath doesn't state its ${name}, so no test can be said to cover it`;
  if (test === null) return `the test doesn't state its ${name}, the bath does`;
  // A hair of slack for decimals such as 8.2 + 0.3.
  return bath > test + margin + 1e-9 ? text(test, bath) : null;
}
