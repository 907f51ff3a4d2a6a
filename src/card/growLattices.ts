import type { Quadrilateral } from "../vision/quadrilateral.ts";
import type { Point } from "../numeric/point.ts";

/** Pitch over side of a patch: wide and narrow gaps between patches, and patches seen too small under blur. */
const PITCH_OVER_SIDE = [1.13, 1.25, 1.4];

/** A neighbour lies within this share of the pitch of where it is expected ... */
const NEIGHBOUR_REACH = 0.22;

/** ... and has an area between these multiples of this one's. */
const SMALLEST_AREA_RATIO = 0.45;
const LARGEST_AREA_RATIO = 2.2;

/** Corners of a neighbour lie on average this close to its parent's corners moved there, in pitches: not turned, not of another size. */
const MOST_UNLIKE = 0.35;

/** Nodes of two lattices are the same patch when they lie this close, in sides of it. */
const SAME_NODE = 0.2;

/** Two lattices are the same one when so many nodes of the smaller are the same. */
const SAME_SHARE = 0.8;

/** Fewer make no lattice: four fix a homography, three confirm it. */
export const FEWEST_NODES = 7;

export interface LatticeNode {
  /** Place in the lattice, whole numbers, i along the first axis and j along the second (clockwise from it on screen). */
  readonly i: number;
  readonly j: number;
  readonly centre: Point;
}

/** A quadrilateral taken into a lattice, with the steps to its neighbours there. */
interface Member extends LatticeNode {
  readonly quad: Quadrilateral;
  readonly stepI: Point;
  readonly stepJ: Point;
}

/**
 * Groups of quadrilaterals that lie like the patches of a card: each grown from one quadrilateral by looking for the next
 * one a pitch away along its own sides, so that perspective may change pitch and direction from patch to patch.
 * @returns Lattices of at least {@link FEWEST_NODES} nodes over two rows and two columns, largest first; one that lies mostly
 * on a larger one is left out.
 */
export function growLattices(quads: readonly Quadrilateral[]): LatticeNode[][] {
  const index = new CentreIndex(quads);
  const grown: Member[][] = [];
  for (const ratio of PITCH_OVER_SIDE) {
    const used = new Set<Quadrilateral>();
    for (const seed of quads) {
      if (used.has(seed)) continue;
      const members = grow(seed, ratio, index);
      if (members.length < FEWEST_NODES) continue;
      for (const { quad } of members) used.add(quad);
      if (members.every(({ i }) => i === 0) || members.every(({ j }) => j === 0)) continue;
      grown.push(members);
    }
  }
  grown.sort((a, b) => b.length - a.length);
  const kept: Member[][] = [];
  for (const members of grown)
    if (!kept.some((larger) => liesOn(members, larger))) kept.push(members);
  return kept.map((members) => members.map(({ i, j, centre }) => ({ i, j, centre })));
}

/** Whether most members have one of the other lattice in their place: the same patches seen through another mask. */
function liesOn(members: readonly Member[], others: readonly Member[]): boolean {
  let same = 0;
  for (const { centre, quad } of members)
    if (
      others.some(
        (other) =>
          Math.hypot(other.centre[0] - centre[0], other.centre[1] - centre[1]) <
          SAME_NODE * quad.side,
      )
    )
      same++;
  return same >= SAME_SHARE * members.length;
}

interface Candidate {
  readonly parent: Member;
  readonly quad: Quadrilateral;
  readonly i: number;
  readonly j: number;
  /** Mean distance of its corners from those of its parent moved there, in pitches. */
  readonly unlike: number;
}

const NEIGHBOURS = [
  [1, 0],
  [0, 1],
  [-1, 0],
  [0, -1],
] as const;

function grow(seed: Quadrilateral, ratio: number, index: CentreIndex): Member[] {
  const [sideI, sideJ] = sidesOf(seed);
  const first: Member = {
    i: 0,
    j: 0,
    centre: seed.centre,
    quad: seed,
    stepI: [ratio * sideI[0], ratio * sideI[1]],
    stepJ: [ratio * sideJ[0], ratio * sideJ[1]],
  };
  const members: Member[] = [];
  const taken = new Set<Quadrilateral>();
  const filled = new Set<string>();
  const candidates: Candidate[] = [];
  const look = (parent: Member, i: number, j: number): void => {
    const step = i === parent.i ? parent.stepJ : parent.stepI;
    const sign = i - parent.i + (j - parent.j);
    const { centre, quad } = parent;
    const expected: Point = [centre[0] + sign * step[0], centre[1] + sign * step[1]];
    const pitch = Math.hypot(...step);
    const found = index.mostLike(quad, expected, NEIGHBOUR_REACH * pitch, taken);
    if (found !== null && found.unlike < MOST_UNLIKE * pitch)
      candidates.push({ parent, quad: found.quad, i, j, unlike: found.unlike / pitch });
  };
  const add = (member: Member): void => {
    members.push(member);
    taken.add(member.quad);
    filled.add(`${member.i},${member.j}`);
    for (const [di, dj] of NEIGHBOURS) {
      const i = member.i + di;
      const j = member.j + dj;
      if (!filled.has(`${i},${j}`)) look(member, i, j);
    }
  };
  add(first);
  // The likeliest neighbour first: a stray shape in an empty place must not grow a branch of its own before the true patches.
  for (;;) {
    let next = -1;
    for (let k = 0; k < candidates.length; k++)
      if (next < 0 || candidates[k].unlike < candidates[next].unlike) next = k;
    if (next < 0) return members;
    const [{ parent, quad, i, j }] = candidates.splice(next, 1);
    if (filled.has(`${i},${j}`)) continue;
    if (taken.has(quad)) look(parent, i, j);
    else add(neighbour(parent, quad, i, j));
  }
}

/** The next member: the step just made is measured, the other one is its own side in the parent's ratio of pitch to side. */
function neighbour(parent: Member, quad: Quadrilateral, i: number, j: number): Member {
  const { centre } = quad;
  const sign = i - parent.i + (j - parent.j);
  const measured: Point = [
    sign * (centre[0] - parent.centre[0]),
    sign * (centre[1] - parent.centre[1]),
  ];
  const alongI = i !== parent.i;
  const kept = alongI ? parent.stepJ : parent.stepI;
  const side = closestSide(quad, kept);
  const parentSide = closestSide(parent.quad, kept);
  const ratio = Math.hypot(...kept) / Math.hypot(...parentSide);
  const other: Point = [ratio * side[0], ratio * side[1]];
  return {
    i,
    j,
    centre,
    quad,
    stepI: alongI ? measured : other,
    stepJ: alongI ? other : measured,
  };
}

/** Means of opposite sides: along the first, and along the second, clockwise from it. */
function sidesOf({ corners: [a, b, c, d] }: Quadrilateral): [Point, Point] {
  return [
    [(b[0] - a[0] + c[0] - d[0]) / 2, (b[1] - a[1] + c[1] - d[1]) / 2],
    [(d[0] - a[0] + c[0] - b[0]) / 2, (d[1] - a[1] + c[1] - b[1]) / 2],
  ];
}

/** The side that points most nearly along `direction`, with its sign. */
function closestSide(quad: Quadrilateral, direction: Point): Point {
  let best: Point = [0, 0];
  let largest = -Infinity;
  for (const side of sidesOf(quad)) {
    const along = (side[0] * direction[0] + side[1] * direction[1]) / Math.hypot(...side);
    if (Math.abs(along) > largest) {
      largest = Math.abs(along);
      best = along < 0 ? [-side[0], -side[1]] : side;
    }
  }
  return best;
}

/** Quadrilaterals by the cell of a grid that holds their centre. */
class CentreIndex {
  readonly #cells = new Map<string, Quadrilateral[]>();
  readonly #cell: number;

  constructor(quads: readonly Quadrilateral[]) {
    const sides = quads.map(({ side }) => side).sort((a, b) => a - b);
    this.#cell = Math.max(4, sides[Math.floor(sides.length / 2)] ?? 4);
    for (const quad of quads) {
      const key = this.#key(...quad.centre);
      const inCell = this.#cells.get(key);
      if (inCell === undefined) this.#cells.set(key, [quad]);
      else inCell.push(quad);
    }
  }

  #key(x: number, y: number): string {
    return `${Math.floor(x / this.#cell)},${Math.floor(y / this.#cell)}`;
  }

  /** The free quadrilateral within a reach of a place that is most like another one moved there. */
  mostLike(
    like: Quadrilateral,
    [x, y]: Point,
    reach: number,
    taken: ReadonlySet<Quadrilateral>,
  ): { readonly quad: Quadrilateral; readonly unlike: number } | null {
    const size = this.#cell;
    let best: Quadrilateral | null = null;
    let least = Infinity;
    for (let cy = Math.floor((y - reach) / size); cy <= Math.floor((y + reach) / size); cy++)
      for (let cx = Math.floor((x - reach) / size); cx <= Math.floor((x + reach) / size); cx++)
        for (const quad of this.#cells.get(`${cx},${cy}`) ?? []) {
          if (Math.hypot(quad.centre[0] - x, quad.centre[1] - y) > reach || taken.has(quad))
            continue;
          const ratio = quad.area / like.area;
          if (ratio < SMALLEST_AREA_RATIO || ratio > LARGEST_AREA_RATIO) continue;
          const unlike = cornerDistance(like, quad, x - like.centre[0], y - like.centre[1]);
          if (unlike >= least) continue;
          best = quad;
          least = unlike;
        }
    return best && { quad: best, unlike: least };
  }
}

/** Mean distance between corners of `a`, moved by (dx, dy), and corners of `b`, for the best of the four ways to pair them. */
function cornerDistance(a: Quadrilateral, b: Quadrilateral, dx: number, dy: number): number {
  let least = Infinity;
  for (let shift = 0; shift < 4; shift++) {
    let sum = 0;
    for (let k = 0; k < 4; k++) {
      const [ax, ay] = a.corners[k];
      const [bx, by] = b.corners[(k + shift) % 4];
      sum += Math.hypot(bx - ax - dx, by - ay - dy) / 4;
    }
    least = Math.min(least, sum);
  }
  return least;
}
