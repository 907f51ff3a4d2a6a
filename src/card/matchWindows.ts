import type { ColourImage } from "../vision/quadrilateral.ts";
import type { Point } from "../numeric/point.ts";
import type { Matrix3 } from "../numeric/matrix3.ts";
import { multiply3 } from "../numeric/matrix3.ts";
import type { Card } from "./card.ts";
import { fitHomographyRobust } from "./fitHomographyRobust.ts";
import type { LatticeNode } from "./growLattices.ts";
import { FEWEST_NODES } from "./growLattices.ts";
import { applyHomography } from "./homography.ts";
import { affineLabResidual, labsToMatch } from "./matchResidual.ts";

/** A node counts when it lies within this share of the pitch of the common map. */
const AGREEMENT = 0.12;

/** Colours are read at these places about a centre, in pitches: inside the patch even when the place is a little off. */
const READ_AT = [-0.16, -0.08, 0, 0.08, 0.16];

/** A place of a card in a picture, with how well its colours fit there. */
export interface CardPlace {
  /** (column, row) of the card, patch centres at whole numbers, to pixels of the picture. */
  readonly toPixels: Matrix3;
  readonly residual: number;
  /** The colours lie in mirror image: `toPixels` flips the card. */
  readonly mirrored: boolean;
}

/**
 * Every way to lay a card on a lattice, judged by the colours: all shifts that cover enough nodes, four turns, and the same in
 * mirror image, so that a mirrored picture is known for what it is.
 * @param image The picture the lattice was found in.
 * @returns Places inside the picture, best first.
 */
export function matchWindows(
  image: ColourImage,
  lattice: readonly LatticeNode[],
  card: Card,
): CardPlace[] {
  const places: CardPlace[] = [];
  const tolerance = AGREEMENT * pitchOf(lattice);
  let rest = lattice;
  while (rest.length >= FEWEST_NODES) {
    const fit = fitHomographyRobust(
      rest.map(({ i, j }): Point => [i, j]),
      rest.map(({ centre }) => centre),
      tolerance,
    );
    if (fit === null || fit.inliers.length < FEWEST_NODES) break;
    const agreed = new Set(fit.inliers);
    places.push(...placesOn(image, fit.H, rest.filter((_, k) => agreed.has(k)), card)); // prettier-ignore
    // A card lying on a keyboard grows into one lattice with it: what did not agree may be the card.
    rest = rest.filter((_, k) => !agreed.has(k));
  }
  return places.sort((a, b) => a.residual - b.residual);
}

function placesOn(
  image: ColourImage,
  latticeToPixels: Matrix3,
  nodes: readonly LatticeNode[],
  card: Card,
): CardPlace[] {
  const reader = new LatticeReader(image, latticeToPixels);
  const labs = labsToMatch(card);
  const mirroredLabs = labsToMatch(mirrorImage(card));
  const codes = new Float64Array(labs.length);
  const places: CardPlace[] = [];
  for (let turn = 0; turn < 4; turn++) {
    const [width, height] = turn % 2 === 0 ? [card.columns, card.rows] : [card.rows, card.columns];
    for (const [i0, j0] of windows(nodes, width, height)) {
      const toLattice = placement(turn, i0, j0, card);
      if (!read(reader, toLattice, card, codes)) continue;
      const toPixels = multiply3(latticeToPixels, toLattice);
      places.push({ toPixels, residual: affineLabResidual(codes, labs), mirrored: false });
      places.push({
        toPixels: multiply3(toPixels, [-1, 0, card.columns - 1, 0, 1, 0, 0, 0, 1]),
        residual: affineLabResidual(codes, mirroredLabs),
        mirrored: true,
      });
    }
  }
  return places;
}

/** The card with the order of its columns reversed. */
function mirrorImage(card: Card): Card {
  const { columns } = card;
  const patches = card.patches.map((_, i) => card.patches[i + columns - 1 - 2 * (i % columns)]);
  return { ...card, patches };
}

function pitchOf(lattice: readonly LatticeNode[]): number {
  const at = new Map(lattice.map((node) => [`${node.i},${node.j}`, node.centre]));
  const steps: number[] = [];
  for (const { i, j, centre } of lattice)
    for (const next of [at.get(`${i + 1},${j}`), at.get(`${i},${j + 1}`)])
      if (next !== undefined) steps.push(Math.hypot(next[0] - centre[0], next[1] - centre[1]));
  return steps.sort((a, b) => a - b)[Math.floor(steps.length / 2)];
}

/** Upper left corners of all windows of a size that hold at least seven nodes, or all but three of a small lattice. */
function windows(nodes: readonly LatticeNode[], width: number, height: number): Point[] {
  const is = nodes.map(({ i }) => i);
  const js = nodes.map(({ j }) => j);
  const found: Point[] = [];
  for (let j0 = Math.min(...js) - height + 1; j0 <= Math.max(...js); j0++)
    for (let i0 = Math.min(...is) - width + 1; i0 <= Math.max(...is); i0++) {
      let held = 0;
      for (const { i, j } of nodes)
        if (i >= i0 && j >= j0 && i < i0 + width && j < j0 + height) held++;
      if (held >= FEWEST_NODES) found.push([i0, j0]);
    }
  return found;
}

/** (column, row) to (i, j) for a card turned by quarter turns and laid with its window's corner at (i0, j0). */
function placement(turn: number, i0: number, j0: number, { columns, rows }: Card): Matrix3 {
  const right = columns - 1;
  const bottom = rows - 1;
  // prettier-ignore
  switch (turn) {
    case 0: return [1, 0, i0, 0, 1, j0, 0, 0, 1];
    case 1: return [0, -1, i0 + bottom, 1, 0, j0, 0, 0, 1];
    case 2: return [-1, 0, i0 + right, 0, -1, j0 + bottom, 0, 0, 1];
    default: return [0, 1, i0, -1, 0, j0 + right, 0, 0, 1];
  }
}

function read(
  reader: LatticeReader,
  toLattice: Matrix3,
  { columns, rows }: Card,
  codes: Float64Array,
): boolean {
  for (let row = 0; row < rows; row++)
    for (let column = 0; column < columns; column++) {
      const [i, j] = applyHomography(toLattice, [column, row]);
      const colour = reader.at(i, j);
      if (colour === null) return false;
      codes.set(colour, 3 * (row * columns + column));
    }
  return true;
}

/** Mean code values 0..1 about the nodes of a lattice, each read once. */
class LatticeReader {
  readonly #image: ColourImage;
  readonly #H: Matrix3;
  readonly #seen = new Map<string, Float64Array | null>();

  constructor(image: ColourImage, H: Matrix3) {
    this.#image = image;
    this.#H = H;
  }

  /** null where the node does not lie wholly inside the picture. */
  at(i: number, j: number): Float64Array | null {
    const key = `${i},${j}`;
    let colour = this.#seen.get(key);
    if (colour === undefined) {
      colour = this.#read(i, j);
      this.#seen.set(key, colour);
    }
    return colour;
  }

  #read(i: number, j: number): Float64Array | null {
    const { pixels, width, height } = this.#image;
    const H = this.#H;
    const sum = new Float64Array(3);
    const share = 1 / (255 * READ_AT.length ** 2);
    for (const dj of READ_AT)
      for (const di of READ_AT) {
        if (!(H[6] * (i + di) + H[7] * (j + dj) + H[8] > 0)) return null;
        const [px, py] = applyHomography(H, [i + di, j + dj]);
        const x = Math.round(px);
        const y = Math.round(py);
        if (!(x >= 0 && y >= 0 && x < width && y < height)) return null;
        for (let c = 0; c < 3; c++) sum[c] += share * pixels[3 * (y * width + x) + c];
      }
    return sum;
  }
}
