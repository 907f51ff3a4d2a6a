import { bandedMatrix, invertBandInPlace } from "../numeric/bandedInverse.ts";
import { TRUSTED, USED } from "./gates.ts";
import type { NodeField } from "./nodeField.ts";
import type { TileMeasurements } from "./measureTiles.ts";
import { bendings, plateStencils } from "./plateStencils.ts";
import type { NodeInformation } from "./relaxNodes.ts";

/** Diagonal entry of the bending energy inside the lattice: a node given all others bends with this stiffness. */
const OWN_STIFFNESS = 20;

/** Spacings, in nodes, over which the plate is asked how well it predicts. */
const SCALES = [1, 2, 4];

/** Spacings over which it is asked how much it bends: a gap of bare paper is as wide as several nodes. */
const GAP_SCALES = [2, 4, 6];

/**
 * Mean square of a second difference over one spacing in a Gauss-Markov plate, where a node given all its neighbours has the variance 1: 20 times the
 * mean over all waves of (2 - 2 cos x)^2 / (4 - 2 cos x - 2 cos y)^2, which is 0.341. It grows with the square of the spacing.
 */
const SECOND_DIFFERENCE = 6.8;

/** Fewer nodes than this say nothing about a scale. */
const LEAST_NODES = 30;

/** Whatever happened, a node lies within some of these of where features put it: keeps what nothing holds finite. */
const ANYWHERE_MM = 10;

/** The exact inverse grows with the square of the shorter side: wider fields are cut into strips of so many nodes ... */
const STRIP_NODES = 40;
/** ... each seen with so many of its neighbours' beside it. What lies farther off could only make it surer. */
const STRIP_MARGIN = 8;

/** Variances along one axis, mm squared. */
export interface FieldVariances {
  /** Of a tile with full information. */
  readonly tile: number;
  /** Of a node given all its neighbours, by the cockle alone, among nodes that hold the map. */
  readonly plate: number;
  /** The same across places that nothing holds: a cockle bends more over a gap than what is seen between near nodes lets expect. */
  readonly gap: number;
}

/**
 * Standard deviation of each node's displacement along either axis (root mean square of both), mm: the posterior covariance of
 * the whole field, given all tiles with their information and a thin plate as prior (a Gauss-Markov field whose energy
 * is the bending energy; Rue & Held 2005). A place without texture between places with some thereby has a small, finite figure.
 * @param given What each tile tells by the shape of its correlation, outliers put down.
 * @param measured What each tile asks for.
 * @param inside 1 for nodes on the sheet.
 */
export function positionSigma(
  field: NodeField,
  given: NodeInformation,
  measured: Pick<TileMeasurements, "dx" | "dy">,
  inside: Uint8Array,
): Float64Array {
  const { width: columns, height: rows } = field;
  const variances = fieldVariances(field, given, inside);
  const information = believable(field, given, measured, variances);
  const sigma = new Float64Array(columns * rows);
  // Along the shorter side first: the band is twice that long.
  const turned = columns > rows;
  const [across, along] = turned ? [rows, columns] : [columns, rows];
  const strips = Math.max(1, Math.ceil(across / STRIP_NODES));
  for (let strip = 0; strip < strips; strip++) {
    const from = Math.round((strip * across) / strips);
    const to = Math.round(((strip + 1) * across) / strips);
    const first = strips === 1 ? 0 : Math.max(0, from - STRIP_MARGIN);
    const width = (strips === 1 ? across : Math.min(across, to + STRIP_MARGIN)) - first;
    const nodeOf = (i: number): number => {
      const a = first + (i % width);
      const b = Math.floor(i / width);
      return turned ? a * columns + b : b * columns + a;
    };
    const covariance = stripCovariance(width, along, nodeOf, information, variances);
    for (let b = 0; b < along; b++)
      for (let a = from; a < to; a++) {
        const i = b * width + a - first;
        sigma[nodeOf(i)] = Math.sqrt((covariance(2 * i) + covariance(2 * i + 1)) / 2);
      }
  }
  return sigma;
}

/** Posterior variances of the unknowns (x, y of each node, interleaved) of a lattice of `width` x `length` nodes. */
function stripCovariance(
  width: number,
  length: number,
  nodeOf: (i: number) => number,
  { xx, xy, yy }: NodeInformation,
  { tile, plate, gap }: FieldVariances,
): (unknown: number) => number {
  const nodes = width * length;
  const precision = bandedMatrix(2 * nodes, Math.min(2 * nodes - 1, 4 * width + 1));
  const { band, values } = precision;
  const add = (i: number, j: number, value: number): void => {
    const [low, high] = i < j ? [i, j] : [j, i];
    values[low * (band + 1) + high - low] += value;
  };
  for (let i = 0; i < nodes; i++) {
    const node = nodeOf(i);
    add(2 * i, 2 * i, xx[node] / tile + 1 / ANYWHERE_MM ** 2);
    add(2 * i, 2 * i + 1, xy[node] / tile);
    add(2 * i + 1, 2 * i + 1, yy[node] / tile + 1 / ANYWHERE_MM ** 2);
  }
  const held = Uint8Array.from({ length: nodes }, (_, i) => {
    const node = nodeOf(i);
    return Math.min(xx[node], yy[node]) > USED / 2 ? 1 : 0;
  });
  bendings(width, length, (bent, factors, weight) => {
    const between = bent.every((i) => held[i] !== 0);
    const stiffness = 1 / (OWN_STIFFNESS * (between ? plate : gap));
    for (let k = 0; k < bent.length; k++)
      for (let l = 0; l <= k; l++) {
        const energy = stiffness * weight * factors[k] * factors[l];
        add(2 * bent[k], 2 * bent[l], energy);
        add(2 * bent[k] + 1, 2 * bent[l] + 1, energy);
      }
  });
  if (!invertBandInPlace(precision)) return () => ANYWHERE_MM ** 2;
  return (unknown) => values[unknown * (band + 1)];
}

/**
 * The information of tiles as far as it stands against their neighbours. Where paper has a new grain a tile may find a peak and
 * be wrong altogether: if the tiles of a neighbourhood lie farther from what the plate predicts than their information
 * allows, all of it is divided by that excess.
 */
function believable(
  { width: columns, height: rows, dx, dy }: NodeField,
  { xx, xy, yy }: NodeInformation,
  measured: Pick<TileMeasurements, "dx" | "dy">,
  { tile, plate }: FieldVariances,
): NodeInformation {
  const count = columns * rows;
  const { starts, nodes, weights } = plateStencils(columns, rows);
  const found = new Float64Array(count);
  const expected = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    const trace = xx[i] + yy[i];
    if (!(trace > 0)) continue;
    let ex = measured.dx[i];
    let ey = measured.dy[i];
    for (let k = starts[i]; k < starts[i + 1]; k++) {
      ex -= weights[k] * dx[nodes[k]];
      ey -= weights[k] * dy[nodes[k]];
    }
    const directions = xx[i] * yy[i] - xy[i] * xy[i] > 1e-3 * trace * trace ? 2 : 1;
    found[i] = xx[i] * ex * ex + 2 * xy[i] * ex * ey + yy[i] * ey * ey;
    expected[i] = directions * tile + trace * (PREDICTION_NOISE * tile + plate);
  }
  const share = Float64Array.from({ length: count }, (_, i) => {
    const c = i % columns;
    const r = (i - c) / columns;
    let foundHere = 0;
    let expectedHere = 0;
    for (let y = Math.max(0, r - NEIGHBOURHOOD); y <= Math.min(rows - 1, r + NEIGHBOURHOOD); y++)
      for (
        let x = Math.max(0, c - NEIGHBOURHOOD);
        x <= Math.min(columns - 1, c + NEIGHBOURHOOD);
        x++
      ) {
        foundHere += found[y * columns + x];
        expectedHere += expected[y * columns + x];
      }
    return Math.min(1, expectedHere / foundHere || 1);
  });
  const scaled = (values: Float64Array): Float64Array => values.map((v, i) => v * share[i]);
  return { xx: scaled(xx), xy: scaled(xy), yy: scaled(yy) };
}

/**
 * What the field itself says of its noise and of its cockle. At trusted nodes, the distance from what the plate through the
 * twelve others predicts holds the noise of all thirteen and the bending. Over one spacing it is all put down to noise. Over
 * wider ones the rest is bending, which in a Gauss-Markov plate grows with the square of the spacing; the scale at which
 * the sheet bends most decides, so that a bridge over a gap of that width is not called better than it was found to be. Where too few
 * neighbourhoods are whole to ask over the widest spacing, its gaps are as wide as that and nothing tells how the plate bridges them: there
 * second differences decide, for which many more places have the neighbours, and which are on the safe side.
 */
export function fieldVariances(
  { width: columns, height: rows, dx, dy }: NodeField,
  { xx, yy }: NodeInformation,
  inside: Uint8Array,
): FieldVariances {
  const told = (node: number): number => Math.min(xx[node], yy[node]);
  /** Mean square of the distance along an axis, and of what it would be for tiles with noise of 1. */
  const bridged = (scale: number, least: number): { square: number; noise: number } | null => {
    let square = 0;
    let noise = 0;
    let count = 0;
    const s = scale;
    for (let r = 2 * s; r < rows - 2 * s; r++)
      for (let c = 2 * s; c < columns - 2 * s; c++) {
        const i = r * columns + c;
        if (inside[i] === 0 || told(i) < least) continue;
        let x = -OWN_STIFFNESS * dx[i];
        let y = -OWN_STIFFNESS * dy[i];
        let spread = OWN_STIFFNESS ** 2 / told(i);
        let whole = true;
        for (const [dc, dr, weight] of PLATE) {
          const j = i + s * (dr * columns + dc);
          whole &&= told(j) > USED / 2;
          x += weight * dx[j];
          y += weight * dy[j];
          spread += weight ** 2 / told(j);
        }
        if (!whole) continue;
        square += (x * x + y * y) / 2 / OWN_STIFFNESS ** 2;
        noise += spread / OWN_STIFFNESS ** 2;
        count++;
      }
    return count < LEAST_NODES ? null : { square: square / count, noise: noise / count };
  };
  /** Mean square of the second difference along rows and columns, an axis of the displacement. */
  const bent = (scale: number): number | null => {
    let square = 0;
    let count = 0;
    for (let r = 0; r < rows; r++)
      for (let c = 0; c < columns; c++) {
        const i = r * columns + c;
        if (inside[i] === 0 || told(i) < USED / 2) continue;
        for (const [within, length, step] of [
          [c, columns, 1],
          [r, rows, columns],
        ]) {
          if (within < scale || within + scale >= length) continue;
          const [j, k] = [i - scale * step, i + scale * step];
          if (told(j) < USED / 2 || told(k) < USED / 2) continue;
          square += ((dx[j] + dx[k] - 2 * dx[i]) ** 2 + (dy[j] + dy[k] - 2 * dy[i]) ** 2) / 2;
          count++;
        }
      }
    return count < LEAST_NODES ? null : square / count;
  };
  let tile = UNKNOWN_TILE_MM ** 2;
  let plate = UNKNOWN_PLATE_MM ** 2;
  let asked = true;
  for (const scale of SCALES) {
    const found = bridged(scale, TRUSTED / 2);
    asked = found !== null;
    if (found === null) break;
    if (scale === 1) {
      tile = Math.max((SHARED ** 2 * found.square) / found.noise, LEAST_TILE_MM ** 2);
      plate = found.square;
    } else plate = Math.max(plate, (found.square - tile * found.noise) / scale ** 2);
  }
  plate = Math.max(plate, LEAST_TILE_MM ** 2);
  if (asked) return { tile, plate, gap: plate };
  const gap = GAP_SCALES.reduce(
    (most, scale) => Math.max(most, (bent(scale) ?? 0) / (SECOND_DIFFERENCE * scale ** 2)),
    plate,
  );
  return { tile, plate, gap };
}

/** Where the field can't tell for want of trusted neighbourhoods: a pixel at 150 dpi, and a strong cockle over a spacing. */
const UNKNOWN_TILE_MM = 0.17;
const UNKNOWN_PLATE_MM = 0.1;

/** A frame laid on itself isn't placed better than this: a fifteenth of a pixel at 600 dpi. */
const LEAST_TILE_MM = 0.003;

/**
 * Neighbours share part of their error (the beat of screen and pixels, interpolation, the fading of an ink), which their
 * distance from each other can't tell: the truth of rendered pairs was 1.2 to 1.45 times as far off as it told, at 300 to 150 dpi.
 */
const SHARED = 1.45;

/** Half the side, in nodes, of the neighbourhood over which tiles are held against each other. */
const NEIGHBOURHOOD = 2;

/** Of a prediction by twelve neighbours, the part that their own noise adds: the sum of the squared weights. */
const PREDICTION_NOISE = 0.69;

/** The plate's stencil about a node: column, row, weight; they sum to OWN_STIFFNESS. */
const PLATE = [
  [-1, 0, 8],
  [1, 0, 8],
  [0, -1, 8],
  [0, 1, 8],
  [-1, -1, -2],
  [1, -1, -2],
  [-1, 1, -2],
  [1, 1, -2],
  [-2, 0, -1],
  [2, 0, -1],
  [0, -2, -1],
  [0, 2, -1],
] as const;

/**
 * Quantile of the distance from the truth over places whose two axes err normally, each place with its own standard deviation:
 * the distance at which the mean of exp(-d^2 / (2 sigma^2)) falls to 1 - share.
 * @returns NaN of an empty list.
 */
export function radialQuantile(sigmas: readonly number[], share: number): number {
  if (sigmas.length === 0) return NaN;
  const beyond = (distance: number): number =>
    sigmas.reduce((sum, s) => sum + Math.exp(-(distance ** 2) / (2 * s * s)), 0) / sigmas.length;
  let low = 0;
  let high = Math.max(...sigmas) * Math.sqrt(-2 * Math.log(1 - share));
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (beyond(middle) > 1 - share) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
