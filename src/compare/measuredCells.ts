import { farFrom } from "../grid/farFrom.ts";
import { CORE_MM } from "../regions/erodeCores.ts";
import { type RegionMap, OFF_COLOUR, PAPER_LABEL, STRANGER } from "../regions/regionMap.ts";

/** Cells by what they are measured as, indices in ascending order; nothing under what has none. */
export interface MeasuredCells {
  /** By label of the ink or the paper. */
  readonly ofLabel: ReadonlyMap<number, Int32Array>;
  /** By number of the listed region. */
  readonly ofRegion: ReadonlyMap<number, Int32Array>;
}

/**
 * An ink is shaded, as on a painted cover, where more than this share of what lies well inside it is off its own colour: 0.33 to 0.9 on rendered
 * painted covers. On covers of solids and tints it is 0.05 to 0.2, of wide strokes, dirt and what has no name, and doesn't speak for the ink.
 */
const SHADED = 0.3;

/**
 * The cells that speak for an ink: all of its area that may be used, up to the mixtures along edges and clear of the sheet's own edge, where
 * paper casts a shadow and the bed shines in. What is far from the ink's own colour counts where the ink is shaded, 1 mm and more inside it. Paper is what everything is judged by and mostly plentiful: of it, only what lies
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
  const inner = farFrom(
    borders(labels, mixed, width, height),
    width,
    height,
    Math.max(0.5, CORE_MM / mmPerCell - 0.5),
  );
  const shading = (i: number): boolean => mixed[i] === OFF_COLOUR && inner[i] !== 0;
  const plain = new Int32Array(256);
  const shaded = new Int32Array(256);
  for (let i = 0; i < labels.length; i++)
    if (mixed[i] === 0) plain[labels[i]]++;
    else if (shading(i)) shaded[labels[i]]++;
  const whole = (i: number): boolean =>
    mixed[i] === 0 ||
    (shading(i) && shaded[labels[i]] > SHADED * (plain[labels[i]] + shaded[labels[i]]));
  const measured = (i: number): boolean =>
    usable[i] !== 0 && (labels[i] === PAPER_LABEL ? cores[i] !== 0 : whole(i) && inside[i] !== 0);
  return {
    ofLabel: listed(labels, measured),
    ofRegion: listed(components, measured),
  };
}

/** 1 on cells beside another label, and on strangers. */
function borders(labels: Uint8Array, mixed: Uint8Array, width: number, height: number): Uint8Array {
  const border = mixed.map((value) => (value === STRANGER ? 1 : 0));
  const apart = (i: number, j: number): void => {
    if (labels[i] !== labels[j]) border[i] = border[j] = 1;
  };
  for (let y = 0; y < height; y++)
    for (let i = y * width; i < (y + 1) * width - 1; i++) apart(i, i + 1);
  for (let i = 0; i < (height - 1) * width; i++) apart(i, i + width);
  return border;
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
