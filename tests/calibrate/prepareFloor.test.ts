import { expect, test } from "vitest";
import { chooseCorrection } from "../../src/calibrate/chooseCorrection.ts";
import { prepareFloor } from "../../src/calibrate/prepareFloor.ts";
import { NO_WASH, SCANNER, simulatedPair } from "./simulatedPair.ts";

test("a light term that is given grows with the number of areas judged together, as the usual one does", () => {
  const pair = simulatedPair(SCANNER, NO_WASH, 1);
  const frames = [{ samples: pair.before }, { samples: pair.after }];
  const choice = chooseCorrection(frames, pair.card);
  const floor = prepareFloor(frames, pair.card, choice, { seed: 1 });
  const area = { before: pair.regions[0].before, after: pair.regions[0].after };
  const usual = [1, 10].map((count) => floor.at(area, count).light);
  const given = [1, 10].map((count) => floor.at({ ...area, light: 0.3 }, count).light);
  expect(given[0]).toBeCloseTo(0.3, 12);
  // Ten areas at 95 % together: each at 1 - 0.05 / 10 (Bonferroni) or a little less; normal quantiles 2.81 to 1.96.
  expect(given[1] / given[0]).toBeGreaterThan(1.4);
  expect(given[1] / given[0]).toBeLessThan(1.45);
  expect(given[1] / given[0]).toBeCloseTo(usual[1] / usual[0], 12);
  expect(floor.at({ ...area, light: 0 }, 10).light).toBe(0);
});
