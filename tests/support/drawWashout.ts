import {
  BATH_SCATTER_LOG_SD,
  FAST_SHARE_BETA,
  SLOW_REMAINDER_BETA,
} from "../../calibration/priors.ts";
import type { Random } from "../../src/numeric/random.ts";

/** A Beta variate by rejection from its mode (both shapes 1 or more, as in the priors). */
export function drawBeta(random: Random, [a, b]: readonly [number, number]): number {
  const density = (x: number) => x ** (a - 1) * (1 - x) ** (b - 1);
  const peak = density((a - 1) / (a + b - 2));
  for (;;) {
    const x = random.uniform();
    if (random.uniform() * peak <= density(x)) return x;
  }
}

/**
 * True amounts of successive equal baths of one colourant, drawn from the washout model's own priors.
 * @returns `count` amounts per cm, scatter included; the amplitude is log-uniform over 0.01..0.1.
 */
export function drawWashout(
  random: Random,
  count: number,
  amplitude: number = 0.01 * 10 ** random.uniform(),
): readonly number[] {
  const rs = drawBeta(random, SLOW_REMAINDER_BETA);
  const phi = drawBeta(random, FAST_SHARE_BETA);
  const rf = 0.15 * random.uniform();
  return Array.from(
    { length: count },
    (_, i) =>
      amplitude *
      (phi * rf ** i + (1 - phi) * rs ** i) *
      Math.exp(BATH_SCATTER_LOG_SD * random.normal()),
  );
}
