import { LastrinseError } from "../errors.ts";
import type { StripeReading } from "./stripes/stripeReading.ts";

/** White stripes above this code are refused, as are more clipped pixels than this share: curves roll off there. */
const BRIGHTEST_CODE = 250;
const MOST_CLIPPED = 0.03;

/** @throws {LastrinseError} `overexposed` where white stripes, beside or through the jar, are clipped or nearly so. */
export function refuseOverexposed(file: string, { left, right, wide }: StripeReading): void {
  for (const levels of [left, right, wide]) {
    const code = Math.max(...levels.whiteCode);
    if (!(code > BRIGHTEST_CODE || levels.clipped > MOST_CLIPPED)) continue;
    throw new LastrinseError(
      "overexposed",
      `Expected white stripes below code ${BRIGHTEST_CODE} in ${file}, received ${code.toFixed(0)} with ${(100 * levels.clipped).toFixed(0)} % of their pixels clipped.`,
      {
        remedy:
          "Photograph blank and bath again with less exposure, so that the white stripes come out between code 195 and 240.",
        input: file,
      },
    );
  }
}
