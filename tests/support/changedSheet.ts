import type { ChangeView } from "../../src/change/changeView.ts";
import type { LabPlanes } from "../../src/change/differenceMap.ts";
import type { Triple } from "../../src/numeric/triple.ts";
import { seededRandom } from "../../src/numeric/random.ts";

export const SHEET_WIDTH_MM = 90;
export const SHEET_HEIGHT_MM = 70;
export const CELL_MM = 0.2;

export const PAPER_LAB: Triple = [78, 4, 19];
export const PRINT = [
  { id: "red", label: 1, lab: [50, 45, 25], box: [14, 14, 40, 56] },
  { id: "light-blue", label: 2, lab: [69, -2, 4], box: [50, 14, 76, 40] },
  { id: "black", label: 3, lab: [29, 1, 5], box: [50, 48, 76, 56] },
] as const;

/** What a place changed by, beyond what washing did to it. */
export type Extra = (xMm: number, yMm: number) => Triple;

export interface ChangeOptions {
  readonly seed?: number;
  /** Standard deviation of each of Lab in each frame, 1 mm across as after the low-pass. */
  readonly noise?: number;
  /** Residual error of the registration, to the right and down. */
  readonly shiftMm?: readonly [number, number];
  readonly before?: Extra;
  readonly after?: Extra;
}

export interface ChangedSheet {
  readonly view: ChangeView;
  readonly labels: Uint8Array;
  /** Labels 1 mm inside their areas and the sheet. */
  readonly cores: Uint8Array;
  readonly usable: Uint8Array;
}

const NOTHING: Extra = () => [0, 0, 0];
/** What washing does to paper and, less of it, to ink. */
const PAPER_CHANGE: Triple = [2.5, -1.5, -3.5];
const INK_SHARE = 0.4;

/** Depth inside a box in mm, negative outside. */
function depth([left, top, right, bottom]: readonly number[], x: number, y: number): number {
  const inside = Math.min(x - left, right - x, y - top, bottom - y);
  if (inside >= 0) return inside;
  const dx = Math.max(left - x, 0, x - right);
  const dy = Math.max(top - y, 0, y - bottom);
  return -Math.hypot(dx, dy);
}

/** Distance of a place from a printed area; 0 on it. */
export function distanceFrom(id: (typeof PRINT)[number]["id"], x: number, y: number): number {
  const { box } = PRINT.find((print) => print.id === id)!;
  return Math.max(0, -depth(box, x, y));
}

/** Three blocks on bare paper, before and after washing, low-passed by about 1 mm, in Lab. Edges are as soft as the low-pass makes them. */
export function changedSheet(options: ChangeOptions = {}): ChangedSheet {
  const { seed = 1, noise = 0.15, shiftMm = [0, 0], before = NOTHING, after = NOTHING } = options;
  const width = Math.round(SHEET_WIDTH_MM / CELL_MM);
  const height = Math.round(SHEET_HEIGHT_MM / CELL_MM);
  const planes = (): LabPlanes => [
    new Float32Array(width * height),
    new Float32Array(width * height),
    new Float32Array(width * height),
  ];
  const view: ChangeView = {
    before: planes(),
    after: planes(),
    width,
    height,
    mmPerCell: CELL_MM,
    stepX: 2,
    stepY: 2,
  };
  const labels = new Uint8Array(width * height).fill(255);
  const cores = new Uint8Array(width * height);
  const softly = (inside: number): number =>
    inside > 2.5 ? 1 : inside < -2.5 ? 0 : 1 / (1 + Math.exp(-inside / 0.22));
  for (let i = 0; i < labels.length; i++) {
    const x = ((i % width) + 0.5) * CELL_MM;
    const y = (Math.floor(i / width) + 0.5) * CELL_MM;
    let clear = depth([0, 0, SHEET_WIDTH_MM, SHEET_HEIGHT_MM], x, y);
    const was: [number, number, number] = [...PAPER_LAB];
    const is: [number, number, number] = [...PAPER_LAB];
    let inked = 0;
    for (const { label, lab, box } of PRINT) {
      const inside = depth(box, x, y);
      const here = softly(inside);
      const there = softly(depth(box, x - shiftMm[0], y - shiftMm[1]));
      inked += there;
      if (here > 0 || there > 0)
        for (let c = 0; c < 3; c++) {
          was[c] += here * (lab[c] - PAPER_LAB[c]);
          is[c] += there * (lab[c] - PAPER_LAB[c]);
        }
      if (inside >= 0) labels[i] = label;
      clear = Math.min(clear, Math.abs(inside));
    }
    if (clear >= 1) cores[i] = labels[i];
    const [extraBefore, extraAfter] = [before(x, y), after(x, y)];
    for (let c = 0; c < 3; c++) {
      view.before[c][i] = was[c] + extraBefore[c];
      view.after[c][i] = is[c] + PAPER_CHANGE[c] * (1 - (1 - INK_SHARE) * inked) + extraAfter[c];
    }
  }
  [...view.before, ...view.after].forEach((plane, k) => {
    addNoise(plane, width, noise, 100 * seed + k);
  });
  return { view, labels, cores, usable: new Uint8Array(width * height).fill(1) };
}

/** Noise with a correlation of 1 mm: independent values a millimetre apart, linear between. */
function addNoise(plane: Float32Array, width: number, sd: number, seed: number): void {
  if (sd === 0) return;
  const random = seededRandom(seed);
  const perMm = 1 / CELL_MM;
  const columns = Math.ceil(width / perMm) + 2;
  const knots = Float32Array.from(
    { length: columns * (Math.ceil(plane.length / width / perMm) + 2) },
    // Linear interpolation leaves 4/9 of the variance on average.
    () => 1.5 * sd * random.normal(),
  );
  for (let i = 0; i < plane.length; i++) {
    const x = (i % width) / perMm;
    const y = Math.floor(i / width) / perMm;
    const [u, v] = [x % 1, y % 1];
    const at = Math.floor(y) * columns + Math.floor(x);
    plane[i] +=
      (1 - v) * ((1 - u) * knots[at] + u * knots[at + 1]) +
      v * ((1 - u) * knots[at + columns] + u * knots[at + columns + 1]);
  }
}
