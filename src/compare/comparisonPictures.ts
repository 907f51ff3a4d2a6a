import type { CompareResult } from "./result.ts";
import type { Comparison } from "./compareScans.ts";
import { encodePng } from "../raster/encodePng.ts";
import { pictureOfPlanes } from "./pictureOfPlanes.ts";
import { heatMap } from "../report/heatMap.ts";

/** PNG files of a comparison, all on the lattice of the before scan, at most 150 dpi. */
export interface ComparisonPictures {
  readonly inks: Buffer;
  readonly difference: Buffer;
  readonly before: Buffer;
  readonly after: Buffer;
}

/** Floor of each label; cells without a label of their own take the paper's. */
function floorsByLabel({ inks, paper }: CompareResult): Float64Array {
  const floors = new Float64Array(256).fill(paper?.floorDeltaE00 ?? 0);
  for (const ink of inks) floors[ink.label] = ink.floorDeltaE00 ?? floors[ink.label];
  return floors;
}

/** Draws the pictures of a comparison. */
export async function comparisonPictures(comparison: Comparison): Promise<ComparisonPictures> {
  const { result, regions, difference, before, after, corrections, dpi, pictureBefore } =
    comparison;
  const { width, height } = before;
  const floors = floorsByLabel(result);
  const draw = (channels: 1 | 3, data: Uint8Array): Promise<Buffer> =>
    encodePng({ width, height, channels, data }, dpi);
  // All at once: the encoding runs in threads of the image library.
  const pictures = await Promise.all([
    draw(1, regions.labels),
    draw(
      3,
      heatMap(difference, (cell) => floors[regions.labels[cell]]),
    ),
    pictureBefore,
    pictureOfPlanes(after, corrections[1], dpi),
  ]);
  return {
    inks: pictures[0],
    difference: pictures[1],
    before: pictures[2],
    after: pictures[3],
  };
}
