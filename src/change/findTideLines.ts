import type { Box } from "../grid/box.ts";
import { median } from "../numeric/statistics.ts";
import { LOW_PASS_MM } from "../grid/lowPass.ts";
import { boxOfCells } from "../grid/boxOfCells.ts";
import type { ChangeView } from "./changeView.ts";
import { coarseResidual, type CoarseResidual } from "./coarseResidual.ts";
import { lineProfile } from "./lineProfile.ts";
import { linkRidges } from "./linkRidges.ts";
import { ridgeMap } from "./ridgeMap.ts";

/** A brown line that wasn't there before. */
export interface TideLine {
  readonly boxPixels: Box;
  /** Full width at half height, the widening by the low-pass taken off. */
  readonly widthMm: number;
  /** Rise of b* along its crest above what lies beside it. */
  readonly deltaB: number;
  /** Fall of L*, negative. */
  readonly deltaL: number;
  readonly lengthMm: number;
}

/** A line shorter than this isn't told from a fold of the fibres or a scratch. */
export const LEAST_LENGTH_MM = 8;
/** Broader bands are unevenness. */
const WIDEST_MM = 4;
/** Height in CIELAB, half b* and half L*: a line fainter than this isn't seen. */
const LEAST_HEIGHT = 0.5;
/** The mean over 6 mm of an even area of noise reaches 3 of its deviations, in a million places and twelve directions, but not along 8 mm. */
const LEAST_DEVIATIONS = 3.5;
/** Rise of b* over fall of L*: a crease or its shadow darkens without browning; brown matter has 0.5 and more. */
const LEAST_BROWNNESS = 0.25;
/** Narrower lines than this can't be measured through the low-pass. */
const NARROWEST_MM = 0.3;

/**
 * New tide lines: narrow lines along which b* rose and L* fell, at least 8 mm long, on paper and on inks that show the paper. The change
 * of each label around a place is taken off first, so that neither whitening nor fading nor slow unevenness makes a line; lines that were
 * there before are in neither.
 * @param labels Label of each cell to look at: at least 1 mm inside its area and off printed edges, where a residual error of the registration
 * could draw a line of its own; 0 elsewhere.
 * @returns Longest first.
 */
export function findTideLines(view: ChangeView, labels: Uint8Array): TideLine[] {
  const residual = coarseResidual(view, labels);
  const { deltaB, deltaL } = residual;
  const brown = new Float32Array(deltaB.length);
  for (let i = 0; i < brown.length; i++) brown[i] = (deltaB[i] - deltaL[i]) / Math.SQRT2;
  const ridges = ridgeMap(brown, residual);
  const noise = noiseByLabel(brown, residual);
  const lines = linkRidges(ridges, residual, (cell) =>
    // The mean along a line runs on beyond its end, where the place itself shows nothing.
    brown[cell] < ridges.height[cell] / 2
      ? Infinity
      : Math.max(LEAST_HEIGHT, LEAST_DEVIATIONS * noise[residual.labels[cell]]),
  );
  return lines
    .filter(({ lengthMm }) => lengthMm >= LEAST_LENGTH_MM)
    .flatMap(({ cells, lengthMm }): TideLine[] => {
      const profile = lineProfile(cells, ridges.direction, brown, [deltaB, deltaL], residual);
      if (profile === null) return [];
      const [rise, fall] = profile.heights;
      const blurMm = Math.hypot(LOW_PASS_MM, residual.mmPerCell);
      const widthMm = Math.sqrt(Math.max(NARROWEST_MM ** 2, profile.widthMm ** 2 - blurMm ** 2));
      if (!(fall < 0 && rise >= LEAST_BROWNNESS * -fall) || widthMm > WIDEST_MM) return [];
      return [
        {
          boxPixels: boxOfCells(cells, residual),
          widthMm,
          deltaB: rise,
          deltaL: fall,
          lengthMm,
        },
      ];
    })
    .sort((a, b) => b.lengthMm - a.lengthMm);
}

/** Standard deviation of the residual by label, from its median size: lines and spots don't count. */
function noiseByLabel(values: Float32Array, { labels }: CoarseResidual): Float64Array {
  const sizes = new Map<number, number[]>();
  for (let i = 0; i < values.length; i++) {
    if (Number.isNaN(values[i])) continue;
    const list = sizes.get(labels[i]);
    if (list === undefined) sizes.set(labels[i], [Math.abs(values[i])]);
    else list.push(Math.abs(values[i]));
  }
  const noise = new Float64Array(256);
  for (const [label, list] of sizes) noise[label] = median(list) / 0.6745;
  return noise;
}
