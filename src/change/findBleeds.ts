import type { Box } from "../grid/box.ts";
import type { Triple } from "../numeric/triple.ts";
import { distanceTo } from "../grid/distanceTo.ts";
import { median, quantile } from "../numeric/statistics.ts";
import { components } from "../grid/components.ts";
import { PAPER_LABEL } from "../regions/regionMap.ts";
import { boxOfCells } from "../grid/boxOfCells.ts";
import type { ChangeView } from "./changeView.ts";

/** Colour that left a printed edge into bare paper. */
export interface Bleed {
  readonly ink: string;
  readonly boxPixels: Box;
  /** From the printed edge to where the colour ends. */
  readonly reachMm: number;
  /** Mean excess of the change over that of the paper around, towards the ink's colour, in CIELAB. */
  readonly excess: number;
}

/** An ink that may have bled. */
export interface BleedingInk {
  readonly id: string;
  readonly label: number;
  readonly labBefore: Triple;
}

/** Coarse cells: half the low-pass. */
const COARSE_MM = 0.35;
/** Nearer to print than this, a cell holds light of it through the low-pass, and a residual error of the registration moves that light. */
const CLEAR_MM = 1.25;
/** A bleed is looked for this far from its ink. */
const MOST_REACH_MM = 5;
/** Paper this far from all print, within the second distance, tells what the paper around did. */
const BESIDE_MM = 4;
const AROUND_MM = 9;
const LEAST_AROUND_MM2 = 4;
/** A cell further than this in CIELAB from the bare paper around it, before washing, is tinted, stained or soiled and stays out. */
const BARE = 4;
/** Least excess in CIELAB, and in deviations of the paper along the ink: 4 of a normal curve are reached by none of 10 000 cells. */
const LEAST_EXCESS = 1;
const LEAST_DEVIATIONS = 4;
/** The excess points to the ink within this cosine: 32 degrees. */
const LEAST_ALIGNMENT = 0.85;
const LEAST_AREA_MM2 = 2;
/** It begins no further out than this behind the cells that can't be judged. */
const LATEST_START_MM = CLEAR_MM + 0.75;
/**
 * An ink nearer to the paper than this, or of which less than this share of the way to its colour is a way in a* and b* (black has 0.27, violet
 * 0.47), has no hue of its own to tell a bleed from soil by.
 */
const LEAST_AWAY = 10;
const LEAST_HUE_SHARE = 0.35;
/** Cells from which a scatter is taken: enough to know it to 2 %. */
const SAMPLES = 40_000;
/** The inner half of a bleed is stronger than its outer half by this. */
const LEAST_DECAY = 1.2;

/** Bare paper on a coarser lattice, by coarse cell. */
interface CoarsePaper {
  readonly columns: number;
  readonly rows: number;
  readonly mm: number;
  readonly factor: number;
  /** Excess of the change over that of the paper around; NaN where it can't be judged. */
  readonly excess: readonly [Float32Array, Float32Array, Float32Array];
}

/**
 * Bleeds past printed edges: places of bare paper near an ink whose change differs from that of the paper around, by more than the
 * paper's own scatter, in the direction of the ink's colour, beginning at the ink and growing weaker away from it.
 * @param labels Label of each cell, {@link PAPER_LABEL} on bare paper; 0 unknown.
 * @param usable Cells that the registration can be trusted at, on the sheet.
 * @param inks Candidates. One without a hue against the paper is passed over: it can't be told from soil.
 * @param paperLab CIELAB of the bare paper before.
 * @returns In the order of the inks.
 */
export function findBleeds(
  view: ChangeView,
  labels: Uint8Array,
  usable: Uint8Array,
  inks: readonly BleedingInk[],
  paperLab: Triple,
): Bleed[] {
  const coarse = coarsePaper(view, labels, usable);
  if (coarse === null) return [];
  const { columns, rows, mm, factor, excess } = coarse;
  const leastCells = LEAST_AREA_MM2 / mm ** 2;
  const found: (Bleed & { readonly cells: readonly number[]; readonly alignment: number })[] = [];
  for (const { id, label, labBefore } of inks) {
    const away = subtract(labBefore, paperLab);
    const far = Math.hypot(...away);
    if (far < LEAST_AWAY || Math.hypot(away[1], away[2]) < LEAST_HUE_SHARE * far) continue;
    const towards = scale(away, 1 / far);
    const along = component(excess, towards);
    const least = Math.max(LEAST_EXCESS, LEAST_DEVIATIONS * scatter(along));
    if (countAbove(along, least) < leastCells) continue;
    // Distances are dear: they are only asked for where there is something to place.
    const distance = distanceTo(coarseMask(view, labels, label, coarse), columns, rows);
    const stained = new Uint8Array(along.length);
    for (let i = 0; i < stained.length; i++)
      if (along[i] > least / 2 && distance[i] * mm <= MOST_REACH_MM) stained[i] = 1;
    for (const cells of piecesOf(stained, columns, rows)) {
      const strong = cells.filter((cell) => along[cell] > least);
      if (strong.length < leastCells) continue;
      const sum = meanOf(excess, strong);
      const alignment = dot(sum, towards) / Math.hypot(...sum);
      const distances = cells.map((cell) => distance[cell] * mm);
      const middle = median(distances);
      const strength = (inner: boolean): number =>
        median(cells.filter((_, k) => distances[k] < middle === inner).map((cell) => along[cell]));
      if (
        alignment < LEAST_ALIGNMENT ||
        quantile(distances, 0) > LATEST_START_MM ||
        !(strength(true) > LEAST_DECAY * strength(false))
      )
        continue;
      found.push({
        ink: id,
        boxPixels: boxOfCells(cells, columns, factor, view),
        reachMm: quantile(distances, 0.95),
        excess: dot(sum, towards),
        cells,
        alignment,
      });
    }
  }
  // The same place may suit two inks of like hue: it belongs to the one it points to best.
  const taken = new Set<number>();
  const kept = new Set<Bleed>();
  for (const bleed of [...found].sort((a, b) => b.alignment - a.alignment)) {
    if (bleed.cells.some((cell) => taken.has(cell))) continue;
    for (const cell of bleed.cells) taken.add(cell);
    kept.add(bleed);
  }
  return found
    .filter((bleed) => kept.has(bleed))
    .map(({ ink, boxPixels, reachMm, excess: size }) => ({
      ink,
      boxPixels,
      reachMm,
      excess: size,
    }));
}

/** Means of bare paper by coarse cell, against the paper around each; null where there is too little. */
function coarsePaper(view: ChangeView, labels: Uint8Array, usable: Uint8Array): CoarsePaper | null {
  const { before, after, width, height, mmPerCell } = view;
  const factor = Math.max(1, Math.round(COARSE_MM / mmPerCell));
  const columns = Math.floor(width / factor);
  const rows = Math.floor(height / factor);
  const size = columns * rows;
  const mm = factor * mmPerCell;
  // L*, a*, b* before, then their changes.
  const values = Array.from({ length: 6 }, () => new Float32Array(size).fill(NaN));
  const printed = new Uint8Array(size);
  for (let row = 0; row < rows; row++)
    for (let column = 0; column < columns; column++) {
      const at = row * columns + column;
      const sums = [0, 0, 0, 0, 0, 0];
      let count = 0;
      for (let y = 0; y < factor; y++)
        for (let x = 0; x < factor; x++) {
          const i = (row * factor + y) * width + column * factor + x;
          if (labels[i] !== PAPER_LABEL) {
            if (labels[i] !== 0) printed[at] = 1;
            continue;
          }
          if (usable[i] === 0 || Number.isNaN(after[0][i])) continue;
          count++;
          for (let c = 0; c < 3; c++) {
            sums[c] += before[c][i];
            sums[c + 3] += after[c][i] - before[c][i];
          }
        }
      if (count === factor * factor) values.forEach((plane, c) => (plane[at] = sums[c] / count));
    }
  const toPrint = distanceTo(printed, columns, rows);
  const beside = (i: number): boolean => toPrint[i] * mm >= BESIDE_MM;
  const around = meansAround(values, beside, { columns, rows, mm });
  if (around === null) return null;
  const [beforeL, beforeA, beforeB, changeL, changeA, changeB] = values;
  const blank = () => new Float32Array(size).fill(NaN);
  const excess = [blank(), blank(), blank()] as const;
  const paper = new Float64Array(6);
  for (let i = 0; i < size; i++) {
    if (Number.isNaN(beforeL[i]) || toPrint[i] * mm < CLEAR_MM) continue;
    around(i, paper);
    const L = beforeL[i] - paper[0];
    const a = beforeA[i] - paper[1];
    const b = beforeB[i] - paper[2];
    if (L * L + a * a + b * b > BARE * BARE) continue;
    excess[0][i] = changeL[i] - paper[3];
    excess[1][i] = changeA[i] - paper[4];
    excess[2][i] = changeB[i] - paper[5];
  }
  return { columns, rows, mm, factor, excess };
}

/**
 * Mean of each plane over the chosen cells within {@link AROUND_MM} of a place, on blocks of a millimetre; where there are too few, the median of
 * all chosen cells.
 * @returns Writes the mean of each plane at a cell into `out`. null where none was chosen.
 */
function meansAround(
  values: readonly Float32Array[],
  chosen: (cell: number) => boolean,
  { columns, rows, mm }: { readonly columns: number; readonly rows: number; readonly mm: number },
): ((cell: number, out: Float64Array) => void) | null {
  const block = Math.max(1, Math.round(1 / mm));
  const across = Math.ceil(columns / block);
  const down = Math.ceil(rows / block);
  const stride = across + 1;
  // The last table counts.
  const tables = Array.from({ length: 7 }, () => new Float64Array(stride * (down + 1)));
  const all: number[] = [];
  for (let i = 0; i < values[0].length; i++) {
    if (Number.isNaN(values[0][i]) || !chosen(i)) continue;
    const row = Math.floor(i / columns);
    const at = (Math.floor(row / block) + 1) * stride + Math.floor((i - row * columns) / block) + 1;
    values.forEach((plane, c) => (tables[c][at] += plane[i]));
    tables[6][at]++;
    all.push(i);
  }
  if (all.length === 0) return null;
  for (const table of tables)
    for (let y = 1; y <= down; y++)
      for (let x = 1; x <= across; x++) {
        const at = y * stride + x;
        table[at] += table[at - 1] + table[at - stride] - table[at - stride - 1];
      }
  const everywhere = values.map((plane) => median(all.map((cell) => plane[cell])));
  const reach = Math.round(AROUND_MM / (block * mm));
  const least = LEAST_AROUND_MM2 / mm ** 2;
  return (cell, out) => {
    const row = Math.floor(cell / columns);
    const y = Math.floor(row / block);
    const x = Math.floor((cell - row * columns) / block);
    const y0 = Math.max(0, y - reach) * stride;
    const y1 = Math.min(down, y + reach + 1) * stride;
    const x0 = Math.max(0, x - reach);
    const x1 = Math.min(across, x + reach + 1);
    const over = (table: Float64Array): number =>
      table[y1 + x1] - table[y0 + x1] - table[y1 + x0] + table[y0 + x0];
    const count = over(tables[6]);
    for (let c = 0; c < 6; c++) out[c] = count < least ? everywhere[c] : over(tables[c]) / count;
  };
}

/** Component of each excess along a unit vector. */
function component([L, a, b]: CoarsePaper["excess"], [toL, toA, toB]: Triple): Float32Array {
  const along = new Float32Array(L.length);
  for (let i = 0; i < along.length; i++) along[i] = toL * L[i] + toA * a[i] + toB * b[i];
  return along;
}

function countAbove(values: Float32Array, least: number): number {
  let count = 0;
  for (const value of values) if (value > least) count++;
  return count;
}

/** Standard deviation of what is not NaN, from its median size: bleeds don't count. */
function scatter(values: Float32Array): number {
  const stride = Math.ceil(values.length / SAMPLES);
  const sizes: number[] = [];
  for (let i = 0, seen = 0; i < values.length; i++)
    if (!Number.isNaN(values[i]) && seen++ % stride === 0) sizes.push(Math.abs(values[i]));
  return sizes.length === 0 ? 0 : median(sizes) / 0.6745;
}

/** 1 on coarse cells whose middle has the label. */
function coarseMask(
  { width }: ChangeView,
  labels: Uint8Array,
  label: number,
  { columns, rows, factor }: CoarsePaper,
): Uint8Array {
  const mask = new Uint8Array(columns * rows);
  const middle = Math.floor(factor / 2) * (width + 1);
  for (let i = 0; i < mask.length; i++) {
    const row = Math.floor(i / columns);
    mask[i] =
      labels[row * factor * width + (i - row * columns) * factor + middle] === label ? 1 : 0;
  }
  return mask;
}

function piecesOf(mask: Uint8Array, columns: number, rows: number): number[][] {
  const { piece, cells } = components(mask, columns, rows);
  const lists = Array.from(cells, (): number[] => []);
  for (let i = 0; i < piece.length; i++) if (piece[i] >= 0) lists[piece[i]].push(i);
  return lists;
}

function meanOf(planes: CoarsePaper["excess"], cells: readonly number[]): Triple {
  const over = (plane: Float32Array): number =>
    cells.reduce((sum, cell) => sum + plane[cell], 0) / cells.length;
  return [over(planes[0]), over(planes[1]), over(planes[2])];
}

function subtract(a: Triple, b: Triple): Triple {
  return [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
}

function scale(a: Triple, factor: number): Triple {
  return [factor * a[0], factor * a[1], factor * a[2]];
}

function dot(a: Triple, b: Triple): number {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}
