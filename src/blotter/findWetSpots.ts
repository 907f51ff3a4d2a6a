import type { Triple } from "../numeric/triple.ts";
import { leastSquares } from "../numeric/leastSquares.ts";
import { components } from "../grid/components.ts";
import { mapTriple } from "../numeric/mapTriple.ts";

/** A patch of a blotter that differs from its dry ground. */
export interface WetSpot {
  /** Cells of the picture, the rim left out. */
  readonly cells: readonly number[];
  /** Box round the whole spot in cells: left, top, width, height. */
  readonly box: readonly [number, number, number, number];
  /** CIELAB of the dry ground as it would be at the spot's middle: tells how the light falls there. */
  readonly ground: Triple;
  /** Mean CIELAB distance from it. */
  readonly distance: number;
}

export interface LabPicture {
  readonly width: number;
  readonly height: number;
  readonly L: Float32Array;
  readonly a: Float32Array;
  readonly b: Float32Array;
}

/** Dry blotters are light. */
const DARKEST_GROUND = 55;

/** A cell belongs to the dry ground within this CIELAB distance of it. */
const GROUND_REACH = 3;

const ROUNDS = 5;

/** Cells of the ground used for its surface: enough for six numbers, whatever the picture's size. */
const MOST_SAMPLES = 800;

/** The blotter fills at least this share of the picture; a spot at least this share of the blotter. */
const LEAST_BLOTTER = 0.08;
const LEAST_SPOT = 0.002;

/** A drop spreads round: its box is filled, and about as wide as high. */
const LEAST_FILLING = 0.55;
const LARGEST_ASPECT = 2;

/** Rim left out of a spot, cells: soft edges, not the dye's ring, which belongs to it. */
const RIM_CELLS = 2;

/** Grounds tried. */
const MOST_GROUNDS = 5;

/**
 * Spots on a blotter by local contrast: the dry ground is a common light colour, with a parabola for uneven light; spots are round
 * holes in it. A table or a sheet under the blotter is a common colour too: each is tried.
 * @param excluded 1 for cells that are no blotter, like a card.
 * @returns Left to right: the two spots where just one of the grounds has two. Otherwise those of the ground with most; empty where
 * there is no blotter.
 */
export function findWetSpots(picture: LabPicture, excluded: Uint8Array): WetSpot[] {
  const all = commonLights(picture, excluded).map((light) => spotsOn(picture, excluded, light));
  const pairs = all.filter((spots) => spots.length === 2);
  if (pairs.length === 1) return pairs[0];
  return all
    .filter((spots) => spots.length !== 2)
    .reduce((most, spots) => (spots.length > most.length ? spots : most), []);
}

function spotsOn(picture: LabPicture, excluded: Uint8Array, light: Triple): WetSpot[] {
  const { width, height } = picture;
  const ground = groundOf(picture, excluded, light);
  if (ground === null) return [];
  const { piece, cells } = components(ground.mask, width, height);
  const blotter = cells.indexOf(cells.reduce((most, count) => Math.max(most, count), 0));
  if (blotter < 0 || cells[blotter] < LEAST_BLOTTER * width * height) return [];

  const notBlotter = new Uint8Array(width * height);
  for (let i = 0; i < notBlotter.length; i++) if (piece[i] !== blotter) notBlotter[i] = 1;
  const holes = components(notBlotter, width, height);
  const spots: WetSpot[] = [];
  for (let hole = 0; hole < holes.cells.length; hole++) {
    if (holes.cells[hole] < LEAST_SPOT * cells[blotter]) continue;
    const spot = spotOf(picture, holes.piece, hole, excluded, ground);
    if (spot !== null) spots.push(spot);
  }
  return spots.sort((p, q) => p.box[0] - q.box[0]);
}

interface Ground {
  readonly mask: Uint8Array;
  readonly at: (x: number, y: number) => Triple;
}

/** The dry ground: from the most common light colour outwards, a parabola in x and y fitted and its cells taken again. */
function groundOf(picture: LabPicture, excluded: Uint8Array, start: Triple): Ground | null {
  const { width, height, L, a, b } = picture;
  let at: Ground["at"] = () => start;
  let reach = 2 * GROUND_REACH;
  let mask = new Uint8Array(0);
  for (let round = 0; round < ROUNDS; round++) {
    mask = new Uint8Array(width * height);
    let count = 0;
    for (let i = 0; i < mask.length; i++) {
      if (excluded[i] === 1) continue;
      const here = at(i % width, Math.floor(i / width));
      if (Math.hypot(L[i] - here[0], a[i] - here[1], b[i] - here[2]) > reach) continue;
      mask[i] = 1;
      count++;
    }
    if (count < LEAST_BLOTTER * mask.length) return null;
    if (round === ROUNDS - 1) break;
    at = surface(picture, mask, count);
    reach = GROUND_REACH;
  }
  return { mask, at };
}

function basis(x: number, y: number): number[] {
  return [1, x, y, x * x, x * y, y * y];
}

function surface(picture: LabPicture, mask: Uint8Array, count: number): Ground["at"] {
  const { width, height } = picture;
  const every = Math.max(1, Math.floor(count / MOST_SAMPLES));
  const rows: number[][] = [];
  const values: number[][] = [[], [], []];
  let seen = 0;
  for (let i = 0; i < mask.length; i++) {
    if (mask[i] === 0 || seen++ % every !== 0) continue;
    rows.push(basis((i % width) / width, Math.floor(i / width) / height));
    [picture.L, picture.a, picture.b].forEach((plane, c) => values[c].push(plane[i]));
  }
  const fits = values.map((channel) => leastSquares(rows, channel).solution);
  return (x, y) => {
    const terms = basis(x / width, y / height);
    const value = (fit: readonly number[]): number =>
      terms.reduce((sum, term, k) => sum + term * fit[k], 0);
    return [value(fits[0]), value(fits[1]), value(fits[2])];
  };
}

/** Classes of lightness are this wide; a peak takes its neighbours in. */
const CLASS_WIDTH = 2;
const CLASSES = 51;

/** Mean colours of the fullest classes of lightness, fullest first, none beside another. */
function commonLights({ L, a, b }: LabPicture, excluded: Uint8Array): Triple[] {
  const classes = Array.from({ length: CLASSES }, () => [0, 0, 0, 0]);
  for (let i = 0; i < L.length; i++) {
    if (excluded[i] === 1 || !(L[i] >= DARKEST_GROUND)) continue;
    const bin = classes[Math.min(CLASSES - 1, Math.floor(L[i] / CLASS_WIDTH))];
    [1, L[i], a[i], b[i]].forEach((value, k) => (bin[k] += value));
  }
  const order = classes.map((_, i) => i).sort((i, j) => classes[j][0] - classes[i][0] || i - j);
  const peaks: number[] = [];
  for (const i of order)
    if (classes[i][0] > 0 && peaks.every((peak) => Math.abs(peak - i) > 3)) peaks.push(i);
  return peaks
    .slice(0, MOST_GROUNDS)
    .map((i) => mapTriple([1, 2, 3], (k) => classes[i][k] / classes[i][0]));
}

/** null unless the hole is round, off the frame and no part of what was excluded. */
function spotOf(
  picture: LabPicture,
  piece: Int32Array,
  hole: number,
  excluded: Uint8Array,
  ground: Ground,
): WetSpot | null {
  const { width, height, L, a, b } = picture;
  let [x0, x1, y0, y1] = [width, -1, height, -1];
  const members: number[] = [];
  for (let i = 0; i < piece.length; i++) {
    if (piece[i] !== hole) continue;
    if (excluded[i] === 1) return null;
    members.push(i);
    x0 = Math.min(x0, i % width);
    x1 = Math.max(x1, i % width);
    y0 = Math.min(y0, Math.floor(i / width));
    y1 = Math.max(y1, Math.floor(i / width));
  }
  const w = x1 - x0 + 1;
  const h = y1 - y0 + 1;
  if (x0 === 0 || y0 === 0 || x1 === width - 1 || y1 === height - 1) return null;
  if (members.length < LEAST_FILLING * w * h) return null;
  if (Math.max(w / h, h / w) > LARGEST_ASPECT) return null;
  const inner = members.filter((i) =>
    [-RIM_CELLS, RIM_CELLS, -RIM_CELLS * width, RIM_CELLS * width].every(
      (step) => piece[i + step] === hole,
    ),
  );
  if (inner.length < 9) return null;
  const distance =
    inner.reduce((sum, i) => {
      const here = ground.at(i % width, Math.floor(i / width));
      return sum + Math.hypot(L[i] - here[0], a[i] - here[1], b[i] - here[2]);
    }, 0) / inner.length;
  return {
    cells: inner,
    box: [x0, y0, w, h],
    ground: ground.at(x0 + w / 2, y0 + h / 2),
    distance,
  };
}
