import type { Liquid } from "./treatmentState.ts";

/** A test serves a bath at most this much more alkaline and warmer than it was. */
export const PH_MARGIN = 0.3;
export const TEMPERATURE_MARGIN_C = 2;

/**
 * Whether a blotter test was made in a liquid at least as strong as a bath.
 * @returns null: it was. Else what is wrong, in words: weaker, or not stated where the bath states it.
 */
export function coversLiquid(test: Liquid, bath: Liquid): string | null {
  if (bath.surfactant === true && test.surfactant !== true)
    return test.surfactant === false
      ? "it was tested without surfactant, the bath holds some"
      : "the test doesn't say whether its liquid held surfactant, the bath does";
  return (
    missing("pH", test.ph, bath.ph) ??
    above(test.ph, bath.ph, PH_MARGIN, (t, b) => `it was tested at pH ${t}, the bath has ${b}`) ??
    missing("temperature", test.temperatureC, bath.temperatureC) ??
    above(
      test.temperatureC,
      bath.temperatureC,
      TEMPERATURE_MARGIN_C,
      (t, b) => `it was tested at ${t} °C, the bath has ${b}`,
    ) ??
    missing("time", test.minutes, bath.minutes) ??
    above(
      test.minutes,
      bath.minutes,
      0,
      (t, b) => `it was tested for ${t} minutes, the bath lasts ${b}`,
    )
  );
}

function missing(name: string, test: number | null, bath: number | null): string | null {
  return bath !== null && test === null
    ? `the test doesn't state its ${name}, the bath does`
    : null;
}

function above(
  test: number | null,
  bath: number | null,
  margin: number,
  text: (test: number, bath: number) => string,
): string | null {
  // A hair of slack for decimals such as 8.2 + 0.3.
  return test !== null && bath !== null && bath > test + margin + 1e-9 ? text(test, bath) : null;
}
