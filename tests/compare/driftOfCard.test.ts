import { expect, test } from "vitest";
import { chooseCorrection } from "../../src/calibrate/chooseCorrection.ts";
import type { PatchSample } from "../../src/card/card.ts";
import { driftOfCard } from "../../src/compare/driftOfCard.ts";
import { DRIFT_SD } from "../../src/plates/filmPrior.ts";
import { seededRandom } from "../../src/numeric/random.ts";
import { NO_WASH, SCANNER, simulatedPair } from "../calibrate/simulatedPair.ts";

const { before, after, card } = simulatedPair(SCANNER, NO_WASH, 1);

function driftWith(change: (sample: PatchSample, i: number) => PatchSample): number {
  const frames = [{ samples: before }, { samples: after.map(change) }];
  return driftOfCard(frames, card, chooseCorrection(frames, card));
}

test("is never below the usual drift", () => {
  expect(driftWith((sample) => sample)).toBeGreaterThanOrEqual(DRIFT_SD);
});

test("grows with what the card leaves unexplained between the frames", () => {
  const disturbed = (size: number): number => {
    const random = seededRandom(7);
    return driftWith((sample) => {
      const [r, g, b] = sample.linear.map((value) => value * (1 + size * (random.uniform() - 0.5)));
      return { ...sample, linear: [r, g, b] };
    });
  };
  const [little, much] = [disturbed(0.05), disturbed(0.4)];
  expect(much).toBeGreaterThan(1.5 * little);
  expect(much).toBeGreaterThan(2 * DRIFT_SD);
});
