import type { Correction } from "../calibrate/correction.ts";
import { encodePng } from "../picture/encodePng.ts";
import type { Planes } from "../grid/planes.ts";
import { heatMap } from "../picture/heatMap.ts";
import { pictureOfPlanes } from "../picture/pictureOfPlanes.ts";
import type { CompareResult } from "../results/compareResult.ts";

/** PNG files of a comparison, all on the lattice of the before scan, at most 150 dpi. */
export interface ComparisonPictures {
  readonly inks: Buffer;
  readonly difference: Buffer;
  readonly before: Buffer;
  readonly after: Buffer;
}

/** What the pictures are drawn from. */
export interface Drawn {
  readonly areas: Pick<CompareResult, "paper" | "inks">;
  /** One a cell. */
  readonly labels: Uint8Array;
  /** dE00 a cell; NaN = not measured. */
  readonly difference: Float32Array;
  readonly before: Promise<Buffer>;
  /** On the lattice of the before planes. */
  readonly after: Planes;
  readonly correctionAfter: Correction;
  readonly dpi: number;
}

/** Floor of each label; cells without a label of their own take the paper's. */
function floorsByLabel({ inks, paper }: Drawn["areas"]): Float64Array {
  const floors = new Float64Array(256).fill(paper?.floorDeltaE00 ?? 0);
  for (const ink of inks) floors[ink.label] = ink.floorDeltaE00 ?? floors[ink.label];
  return floors;
}

/** Draws the pictures of a comparison, all at once: the encoding runs in threads of the image library. */
export async function comparisonPictures({
  areas,
  labels,
  difference,
  before,
  after,
  correctionAfter,
  dpi,
}: Drawn): Promise<ComparisonPictures> {
  const { width, height } = after;
  const floors = floorsByLabel(areas);
  const draw = (channels: 1 | 3, data: Uint8Array): Promise<Buffer> =>
    encodePng({ width, height, channels, data }, dpi);
  const pictures = await Promise.all([
    draw(1, labels),
    draw(
      3,
      heatMap(difference, (cell) => floors[labels[cell]]),
    ),
    before,
    pictureOfPlanes(after, correctionAfter, dpi),
  ]);
  return {
    inks: pictures[0],
    difference: pictures[1],
    before: pictures[2],
    after: pictures[3],
  };
}
