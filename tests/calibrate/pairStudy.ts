import { chooseCorrection } from "../../src/calibrate/chooseCorrection.ts";
import type { Correction } from "../../src/calibrate/correction.ts";
import type { AreaDifference } from "../../src/calibrate/prepareFloor.ts";
import { prepareFloor } from "../../src/calibrate/prepareFloor.ts";
import { toneCurveAt } from "../../src/calibrate/toneCurveAt.ts";
import type { Triple } from "../../src/numeric/triple.ts";
import type { Device, SimulatedRegion, Wash } from "./simulatedPair.ts";
import { simulatedPair } from "./simulatedPair.ts";

/** One region of one simulated pair, measured the way a comparison does. */
export interface StudiedRegion extends AreaDifference {
  readonly seed: number;
  readonly model: string;
  readonly region: SimulatedRegion;
  /** The floor when all twelve regions are judged together. */
  readonly floorTogether: number;
}

function tone({ curves }: Correction, linear: Triple): Triple {
  return [
    toneCurveAt(curves[0], linear[0]),
    toneCurveAt(curves[1], linear[1]),
    toneCurveAt(curves[2], linear[2]),
  ];
}

/**
 * Calibrates simulated pairs and measures their regions.
 * @param control Whether the lighting term comes from an unwashed white strip at the far side of the frame; else the usual one is taken.
 */
export function studyPairs(
  device: Device,
  wash: Wash,
  seeds: readonly number[],
  control: boolean,
): StudiedRegion[] {
  return seeds.flatMap((seed) => {
    const pair = simulatedPair(device, wash, seed);
    const frames = [{ samples: pair.before }, { samples: pair.after }];
    const choice = chooseCorrection(frames, pair.card);
    const [before, after] = choice.frames.map(({ correction }) => correction);
    const floor = prepareFloor(frames, pair.card, choice, { seed: 1 });
    const strip = floor.at({
      before: tone(before, pair.control.before),
      after: tone(after, pair.control.after),
    });
    const light = control ? { light: strip.deltaE00 } : {};
    return pair.regions.map((region) => {
      const area = {
        before: tone(before, region.before),
        after: tone(after, region.after),
        ...light,
      };
      return {
        ...floor.at(area),
        seed,
        model: choice.model,
        region,
        floorTogether: floor.at(area, pair.regions.length).floor,
      };
    });
  });
}
