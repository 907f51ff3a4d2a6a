import type { Correction } from "../calibrate/correction.ts";
import { encodePng } from "../picture/encodePng.ts";
import type { Planes } from "../grid/planes.ts";
import { PAPER_LABEL } from "../regions/regionMap.ts";
import { heatMap } from "../picture/heatMap.ts";
import { pictureOfPlanes } from "../picture/pictureOfPlanes.ts";
import type { CompareResult } from "../results/compareResult.ts";

/** PNG files of a comparison, all on the lattice of the before scan, at most 150 dpi. */
export interface ComparisonPictures {
  readonly inks: Buffer;
  readonly difference: Buffer;
  /** What the paper's own change does not explain; null without a measured paper. */
  readonly inkPart: Buffer | null;
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
  /** The same of the ink part; null without a measured paper. */
  readonly inkPart: Float32Array | null;
  /** Non-zero on the sheet. */
  readonly sheet: Uint8Array;
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

/**
 * What an ink part has to pass before it is shown, by label: the floor, or what the ink's own interval leaves open, whichever is more. A place of
 * no one ink takes the largest.
 */
function allowancesByLabel(areas: Drawn["areas"]): Float64Array {
  const allowances = floorsByLabel(areas);
  for (const { label, inkPartDeltaE00, inkPartLow } of areas.inks)
    if (inkPartDeltaE00 !== null && inkPartLow !== null)
      allowances[label] = Math.max(allowances[label], inkPartDeltaE00 - inkPartLow);
  const inks = new Map(areas.inks.map(({ label }) => [label, allowances[label]]));
  const most = Math.max(allowances[0], ...inks.values());
  return allowances.map((_, label) => inks.get(label) ?? most);
}

/** Draws the pictures of a comparison, all at once: the encoding runs in threads of the image library. */
export async function comparisonPictures({
  areas,
  labels,
  difference,
  inkPart,
  sheet,
  before,
  after,
  correctionAfter,
  dpi,
}: Drawn): Promise<ComparisonPictures> {
  const { width, height } = after;
  const draw = (channels: 1 | 3, data: Uint8Array): Promise<Buffer> =>
    encodePng({ width, height, channels, data }, dpi);
  const floors = floorsByLabel(areas);
  const allowances = allowancesByLabel(areas);
  const map = (values: Float32Array, byLabel: Float64Array, bare?: (cell: number) => boolean) =>
    draw(3, heatMap({ width, values, floor: (cell) => byLabel[labels[cell]], sheet, bare }));
  const isBare = (cell: number): boolean => labels[cell] === PAPER_LABEL;
  const pictures = await Promise.all([
    draw(1, labels),
    map(difference, floors),
    inkPart === null ? null : map(inkPart, allowances, isBare),
    before,
    pictureOfPlanes(after, correctionAfter, dpi),
  ]);
  return {
    inks: pictures[0],
    difference: pictures[1],
    inkPart: pictures[2],
    before: pictures[3],
    after: pictures[4],
  };
}
