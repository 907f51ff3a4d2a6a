import type { Grid } from "../grid/grid.ts";
import { alongDirection, DIRECTIONS, type RidgeMap } from "./ridgeMap.ts";

/** Cells along the crest of one line, in the order of the grid. */
export interface RidgeLine {
  readonly cells: readonly number[];
  /** Length that is seen, without the gaps. */
  readonly lengthMm: number;
}

/** Neighbours on one crest lie this close and point alike. */
const NEXT_MM = 1.2;
const MOST_TURN = 2; // of the twelve directions: 30 degrees
/** A piece shorter than this can be chance. */
const LEAST_PIECE_MM = 3;
/** Pieces go together over a gap (print that hides the line) when each points to the other within 30 degrees. */
const MOST_GAP_MM = 12;
const LEAST_ALIGNMENT = Math.cos(Math.PI / 6);

interface Piece {
  readonly cells: number[];
  readonly ends: readonly [number, number];
  readonly lengthMm: number;
}

/**
 * Chains the crests of a ridge map to lines.
 * @param threshold Least height of a crest at each cell.
 */
export function linkRidges(
  { height, direction }: RidgeMap,
  { width, mmPerCell: mm }: Grid,
  threshold: (cell: number) => number,
): RidgeLine[] {
  const crests: number[] = [];
  for (let i = 0; i < height.length; i++)
    if (height[i] >= threshold(i) && isCrest(height, direction, width, i)) crests.push(i);
  const at = new Map(crests.map((cell, k) => [cell, k]));
  const groups = new Groups(crests.length);
  const reach = Math.ceil(NEXT_MM / mm);
  const near2 = (NEXT_MM / mm) ** 2;
  crests.forEach((cell, k) => {
    const column = cell % width;
    for (let dy = 0; dy <= reach; dy++)
      for (let dx = dy === 0 ? 1 : -reach; dx <= reach; dx++) {
        // Past a row's end the next cell number lies at the other side of the frame.
        if (column + dx < 0 || column + dx >= width) continue;
        const other = at.get(cell + dy * width + dx);
        if (other === undefined || dx * dx + dy * dy > near2) continue;
        if (turn(direction[cell], direction[crests[other]]) <= MOST_TURN) groups.join(k, other);
      }
  });
  const place = (cell: number): readonly [number, number] => [
    (cell % width) * mm,
    Math.floor(cell / width) * mm,
  ];
  const pieces = groups
    .lists()
    .map((list) => pieceOf(list.map((k) => crests[k])))
    .filter(({ lengthMm }) => lengthMm >= LEAST_PIECE_MM);

  const lines = new Groups(pieces.length);
  for (let j = 0; j < pieces.length; j++)
    for (let k = j + 1; k < pieces.length; k++)
      if (continues(pieces[j], pieces[k])) lines.join(j, k);
  return lines.lists().map((list) => ({
    cells: list.flatMap((k) => pieces[k].cells).sort((a, b) => a - b),
    lengthMm: list.reduce((sum, k) => sum + pieces[k].lengthMm, 0),
  }));

  /** Ends and extent along the mean direction, directions being axes without a sign. */
  function pieceOf(cells: number[]): Piece {
    let c = 0;
    let s = 0;
    for (const cell of cells) {
      const angle = (2 * Math.PI * direction[cell]) / DIRECTIONS;
      c += Math.cos(angle);
      s += Math.sin(angle);
    }
    const angle = Math.atan2(s, c) / 2;
    const [ux, uy] = [Math.cos(angle), Math.sin(angle)];
    let [first, last] = [cells[0], cells[0]];
    let [low, high] = [Infinity, -Infinity];
    for (const cell of cells) {
      const [x, y] = place(cell);
      const along = ux * x + uy * y;
      if (along < low) [low, first] = [along, cell];
      if (along > high) [high, last] = [along, cell];
    }
    return { cells, ends: [first, last], lengthMm: high - low };
  }

  function continues(one: Piece, other: Piece): boolean {
    for (const a of one.ends)
      for (const b of other.ends) {
        const [ax, ay] = place(a);
        const [bx, by] = place(b);
        const gap = Math.hypot(bx - ax, by - ay);
        if (gap > MOST_GAP_MM) continue;
        if (gap <= NEXT_MM) return turn(direction[a], direction[b]) <= MOST_TURN;
        const aligned = [a, b].every((end) => {
          const [tx, ty] = alongDirection(direction[end]);
          return Math.abs(tx * (bx - ax) + ty * (by - ay)) >= LEAST_ALIGNMENT * gap;
        });
        if (aligned) return true;
      }
    return false;
  }
}

/** Highest of the cells next to it across the ridge. */
function isCrest(
  height: Float32Array,
  direction: Uint8Array,
  width: number,
  cell: number,
): boolean {
  const [tx, ty] = alongDirection(direction[cell]);
  const column = cell % width;
  // NaN and places beyond the grid don't outrank it.
  const outranks = (dx: number, dy: number): boolean =>
    column + dx >= 0 && column + dx < width && height[cell + dy * width + dx] > height[cell];
  for (const across of [1, 2]) {
    const dx = -Math.round(across * ty);
    const dy = Math.round(across * tx);
    if (outranks(dx, dy) || outranks(-dx, -dy)) return false;
  }
  return true;
}

function turn(a: number, b: number): number {
  const apart = Math.abs(a - b);
  return Math.min(apart, DIRECTIONS - apart);
}

/** Disjoint sets of 0..n-1. */
class Groups {
  private readonly parent: Int32Array;

  constructor(count: number) {
    this.parent = Int32Array.from({ length: count }, (_, i) => i);
  }

  private root(i: number): number {
    while (this.parent[i] !== i) i = this.parent[i] = this.parent[this.parent[i]];
    return i;
  }

  join(i: number, j: number): void {
    const [a, b] = [this.root(i), this.root(j)];
    this.parent[Math.max(a, b)] = Math.min(a, b);
  }

  /** Members in ascending order; sets in the order of their first member. */
  lists(): number[][] {
    const lists = new Map<number, number[]>();
    for (let i = 0; i < this.parent.length; i++) {
      const list = lists.get(this.root(i));
      if (list === undefined) lists.set(i, [i]);
      else list.push(i);
    }
    return [...lists.values()];
  }
}
