import { blockMiddles } from "../grid/blockMiddles.ts";
import type { Box } from "../grid/box.ts";
import { coarsen, type Figure } from "../grid/coarsen.ts";
import { coarserGrid, type CoarserGrid } from "../grid/coarserGrid.ts";
import type { Grid } from "../grid/grid.ts";
import { sumUpInPlace, sumWithin, windowAbout } from "../grid/summedArea.ts";
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

/** Bare paper on a coarser grid. */
interface CoarsePaper extends CoarserGrid {
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
  const { width, height, mmPerCell: mm, excess } = coarse;
  const middles = blockMiddles(labels, view, coarse, coarse.factor);
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
    const distance = distanceTo(
      middles.map((middle) => (middle === label ? 1 : 0)),
      width,
      height,
    );
    const stained = new Uint8Array(along.length);
    for (let i = 0; i < stained.length; i++)
      if (along[i] > least / 2 && distance[i] * mm <= MOST_REACH_MM) stained[i] = 1;
    for (const cells of piecesOf(stained, width, height)) {
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
        boxPixels: boxOfCells(cells, coarse),
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
  const { before, after } = view;
  const grid = coarserGrid(view, COARSE_MM);
  const { width, height, mmPerCell: mm } = grid;
  const size = width * height;
  const bare = labels.map((label, i) =>
    label === PAPER_LABEL && usable[i] !== 0 && !Number.isNaN(after[0][i]) ? 1 : 0,
  );
  // L*, a*, b* before, then their changes.
  const figures: Figure[] = [
    ...before.map((plane) => ({ plane, less: null })),
    ...after.map((plane, c) => ({ plane, less: before[c] })),
  ];
  const { means: values } = coarsen(bare, view.width, grid, figures, 1);
  const printed = printedBlocks(labels, view.width, grid);
  const toPrint = distanceTo(printed, width, height);
  const beside = (i: number): boolean => toPrint[i] * mm >= BESIDE_MM;
  const around = meansAround(values, beside, grid);
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
  return { ...grid, excess };
}

/**
 * Mean of each plane over the chosen cells within {@link AROUND_MM} of a place, on blocks of a millimetre; where there are too few, the median of
 * all chosen cells.
 * @returns Writes the mean of each plane at a cell into `out`. null where none was chosen.
 */
function meansAround(
  values: readonly Float32Array[],
  chosen: (cell: number) => boolean,
  { width, height, mmPerCell: mm }: Grid,
): ((cell: number, out: Float64Array) => void) | null {
  const block = Math.max(1, Math.round(1 / mm));
  const blocks = { width: Math.ceil(width / block), height: Math.ceil(height / block) };
  const stride = blocks.width + 1;
  // The last table counts.
  const tables = Array.from({ length: 7 }, () => new Float64Array(stride * (blocks.height + 1)));
  const all: number[] = [];
  for (let i = 0; i < values[0].length; i++) {
    if (Number.isNaN(values[0][i]) || !chosen(i)) continue;
    const row = Math.floor(i / width);
    const at = (Math.floor(row / block) + 1) * stride + Math.floor((i - row * width) / block) + 1;
    values.forEach((plane, c) => (tables[c][at] += plane[i]));
    tables[6][at]++;
    all.push(i);
  }
  if (all.length === 0) return null;
  for (const table of tables) sumUpInPlace(table, blocks.width, blocks.height);
  const everywhere = values.map((plane) => median(all.map((cell) => plane[cell])));
  const reach = Math.round(AROUND_MM / (block * mm));
  const least = LEAST_AROUND_MM2 / mm ** 2;
  return (cell, out) => {
    const row = Math.floor(cell / width);
    const column = Math.floor((cell - row * width) / block);
    const around = windowAbout(column, Math.floor(row / block), reach, blocks);
    const count = sumWithin(tables[6], around);
    for (let c = 0; c < 6; c++)
      out[c] = count < least ? everywhere[c] : sumWithin(tables[c], around) / count;
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

/** 1 on coarse cells that hold print. */
function printedBlocks(
  labels: Uint8Array,
  fineWidth: number,
  { width, height, factor }: CoarserGrid,
): Uint8Array {
  const printed = new Uint8Array(width * height);
  for (let row = 0; row < height * factor; row++)
    for (let column = 0; column < width * factor; column++) {
      const label = labels[row * fineWidth + column];
      if (label !== 0 && label !== PAPER_LABEL)
        printed[Math.floor(row / factor) * width + Math.floor(column / factor)] = 1;
    }
  return printed;
}

function piecesOf(mask: Uint8Array, width: number, height: number): number[][] {
  const { piece, cells } = components(mask, width, height);
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
