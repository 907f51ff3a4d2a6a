import type { Triple } from "../numeric/triple.ts";
import { expectUntouched, type Surface } from "../print/expectUntouched.ts";
import type { ChangeView } from "./changeView.ts";
import { differenceMap, type LabPlanes } from "./differenceMap.ts";

/** Sides of the cells of CIELAB at whose corners the paper's part is computed: it is smooth, between them it is linear. */
const STEPS: Triple = [5, 8, 8];
/** Corners of L* below and above any print, and of a*, b* likewise. */
const SPAN = 64;

/** The sheet's paper and how the inks lie on it. */
export interface PaperChange {
  /** CIELAB D50 of the bare paper. */
  readonly before: Triple;
  readonly after: Triple;
  readonly surface: Surface;
}

/**
 * What an untouched ink would have become, for any colour: the model of {@link expectUntouched} at the corners of a lattice in CIELAB,
 * computed as they are asked for, linear between them.
 * @returns Shift of L*, a*, b* into `out`.
 */
export function paperShift({
  before,
  after,
  surface,
}: PaperChange): (L: number, a: number, b: number, out: Float64Array) => void {
  const onPaper = expectUntouched(before);
  const corners = new Map<number, Triple>();
  const cornerAt = (i: number, j: number, k: number): Triple => {
    const key = keyOf(i, j, k);
    const known = corners.get(key);
    if (known !== undefined) return known;
    const ink: Triple = [Math.max(1, i * STEPS[0]), j * STEPS[1], k * STEPS[2]];
    const expected = onPaper(ink)(after)(surface);
    const shift: Triple = [expected[0] - ink[0], expected[1] - ink[1], expected[2] - ink[2]];
    corners.set(key, shift);
    return shift;
  };
  // The corners of one cell of the lattice, c fastest; neighbours on a cover are mostly of the same cell.
  const cells = new Map<number, Float64Array>();
  const cellAt = (i: number, j: number, k: number): Float64Array => {
    const key = keyOf(i, j, k);
    const known = cells.get(key);
    if (known !== undefined) return known;
    const cell = new Float64Array(24);
    for (let corner = 0; corner < 8; corner++)
      cell.set(cornerAt(i + (corner & 1), j + ((corner >> 1) & 1), k + (corner >> 2)), 3 * corner);
    cells.set(key, cell);
    return cell;
  };
  let [lastI, lastJ, lastK] = [NaN, NaN, NaN];
  let cell: Float64Array = new Float64Array(24);
  return (L, a, b, out) => {
    const [x, y, z] = [L / STEPS[0], a / STEPS[1], b / STEPS[2]];
    const [i, j, k] = [Math.floor(x), Math.floor(y), Math.floor(z)];
    if (i !== lastI || j !== lastJ || k !== lastK) {
      cell = cellAt(i, j, k);
      [lastI, lastJ, lastK] = [i, j, k];
    }
    const [u, v, w] = [x - i, y - j, z - k];
    for (let c = 0; c < 3; c++) {
      const near = mix(v, mix(u, cell[c], cell[3 + c]), mix(u, cell[6 + c], cell[9 + c]));
      const far = mix(v, mix(u, cell[12 + c], cell[15 + c]), mix(u, cell[18 + c], cell[21 + c]));
      out[c] = mix(w, near, far);
    }
  };
}

function keyOf(i: number, j: number, k: number): number {
  return ((i + SPAN) * 2 * SPAN + (j + SPAN)) * 2 * SPAN + (k + SPAN);
}

function mix(share: number, from: number, to: number): number {
  return from + share * (to - from);
}

/** Cells at a time: the expected colours of a poster need not stand in memory together. */
const CHUNK = 65_536;

/**
 * What is left at each place for loss of ink: dE00 between the colour as it would be if only the paper had changed, and the colour as
 * measured. Places from which less light comes than that lost nothing: 0.
 * @param difference dE00 a cell; NaN = not measured, and stays so.
 */
export function inkPartMap(
  { before, after }: Pick<ChangeView, "before" | "after">,
  difference: Float32Array,
  change: PaperChange,
): Float32Array {
  const shiftAt = paperShift(change);
  const shift = new Float64Array(3);
  const out = new Float32Array(difference.length);
  for (let first = 0; first < out.length; first += CHUNK) {
    const end = Math.min(out.length, first + CHUNK);
    const part = ([L, a, b]: LabPlanes): LabPlanes => [
      L.subarray(first, end),
      a.subarray(first, end),
      b.subarray(first, end),
    ];
    const seen = Uint8Array.from(difference.subarray(first, end), (value) =>
      Number.isNaN(value) ? 0 : 1,
    );
    const was = part(before);
    const measured = part(after);
    const expected = was.map((plane) => plane.slice()) as [
      Float32Array,
      Float32Array,
      Float32Array,
    ];
    for (let i = 0; i < seen.length; i++) {
      if (seen[i] === 0) continue;
      shiftAt(was[0][i], was[1][i], was[2][i], shift);
      for (let c = 0; c < 3; c++) expected[c][i] += shift[c];
    }
    const left = differenceMap(expected, measured, seen);
    for (let i = 0; i < seen.length; i++)
      out[first + i] = seen[i] === 0 || lighter(measured, expected, i) ? left[i] : 0;
  }
  return out;
}

/** Whether more light comes back than from the other, over X, Y and Z together (the product of their cube roots). */
function lighter([L, a, b]: LabPlanes, [otherL, otherA, otherB]: LabPlanes, i: number): boolean {
  const light = (l: number, da: number, db: number): number => {
    const f = (l + 16) / 116;
    return f * (f + da / 500) * (f - db / 200);
  };
  return light(L[i], a[i], b[i]) > light(otherL[i], otherA[i], otherB[i]);
}
