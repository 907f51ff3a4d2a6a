import { farFrom } from "../grid/farFrom.ts";
import { CORE_MM } from "../regions/erodeCores.ts";
import { type RegionMap, PAPER_LABEL } from "../regions/regionMap.ts";

/** Cells by what they are measured as, indices in ascending order; nothing under what has none. */
export interface MeasuredCells {
  /** By label of the ink or the paper. */
  readonly ofLabel: ReadonlyMap<number, Int32Array>;
  /** By number of the listed region. */
  readonly ofRegion: ReadonlyMap<number, Int32Array>;
}

/**
 * The cells that speak for an ink: all of its area that may be used, up to the mixtures along edges and clear of the sheet's own edge, where
 * paper casts a shadow and the bed shines in. Paper is what everything is judged by and mostly plentiful: of it, only what lies
 * inside its areas, away from toned rims and from ink that shows through.
 * @param usable Cells with 0 are left out.
 */
export function measuredCells(
  { labels, cores, mixed, components, sheet, width, height }: RegionMap,
  mmPerCell: number,
  usable: Uint8Array,
): MeasuredCells {
  const beyond = sheet.mask.map((value) => (value === 0 ? 1 : 0));
  const inside = farFrom(beyond, width, height, Math.max(0.5, CORE_MM / mmPerCell));
  const measured = (i: number): boolean =>
    usable[i] !== 0 &&
    (labels[i] === PAPER_LABEL ? cores[i] !== 0 : mixed[i] === 0 && inside[i] !== 0);
  return {
    ofLabel: listed(labels, measured),
    ofRegion: listed(components, measured),
  };
}

/** Cells of each number but 0, in one counting pass. */
function listed(
  numbers: Uint8Array | Uint16Array,
  wanted: (i: number) => boolean,
): Map<number, Int32Array> {
  const counts = new Map<number, number>();
  const of = new Uint8Array(numbers.length);
  for (let i = 0; i < numbers.length; i++) {
    if (numbers[i] === 0 || !wanted(i)) continue;
    of[i] = 1;
    counts.set(numbers[i], (counts.get(numbers[i]) ?? 0) + 1);
  }
  const lists = new Map([...counts].map(([number, count]) => [number, new Int32Array(count)]));
  const filled = new Map<number, number>();
  for (let i = 0; i < numbers.length; i++) {
    if (of[i] === 0) continue;
    const list = lists.get(numbers[i]);
    const at = filled.get(numbers[i]) ?? 0;
    if (list !== undefined) list[at] = i;
    filled.set(numbers[i], at + 1);
  }
  return lists;
}
