import type { Triple } from "../numeric/triple.ts";
import { mean, median } from "../numeric/statistics.ts";
import type { BarePaper } from "./barePaper.ts";
import { type PlateCells, triplesAt } from "./plateCells.ts";

/** The paper before washing and its change, at every cell. */
export interface PaperField {
  readonly source: "bare" | "from-lights";
  /** Bands of the paper before washing, one figure for the sheet. */
  readonly bands: Triple;
  /** ln of the paper's bands before, three values a cell. */
  readonly before: Float64Array;
  /** p: change of ln of the paper's bands, three values a cell; 0 where no bare paper is known. */
  readonly change: Float64Array;
  /** Median of the change seen on bare paper; null where none is known. */
  readonly medianChange: Triple | null;
  /** Prior covariance of the offset of the change, 3 x 3. */
  readonly offsetCovariance: Float64Array;
}

const SIGMA_MM = 25;
/** Weight of the mean of the sheet, where no bare paper is near. */
const WEIGHT_OF_MEAN = 0.002;
const NODE_MM = 5;
/** Beyond four sigma the kernel adds nothing. */
const REACH_SIGMAS = 4;
/** How much lighter than the lightest places paper is, where all of it is printed. */
const LIGHTER_THAN_LIGHTS = 0.02;
/** Cleaning lightens the short band most. */
const CLEANING: Triple = [0.8, 1, 1.3];
const CLEANING_SD = 0.1;
const BAND_SD = 0.03;

/**
 * Smooths the bare paper over the sheet; without bare paper the lights stand for it and its change is left to the regression.
 */
export function paperField(cells: PlateCells, bare: BarePaper): PaperField {
  const n = cells.places.length;
  const offsetCovariance = new Float64Array(9);
  if (bare.cells.length === 0) {
    const [r, g, b] = bare.lightest.map((light) => light + LIGHTER_THAN_LIGHTS);
    for (let c = 0; c < 3; c++) {
      for (let d = 0; d < 3; d++)
        offsetCovariance[3 * c + d] = CLEANING_SD * CLEANING_SD * CLEANING[c] * CLEANING[d];
      offsetCovariance[4 * c] += BAND_SD * BAND_SD;
    }
    return {
      source: "from-lights",
      bands: [Math.exp(r), Math.exp(g), Math.exp(b)],
      before: Float64Array.from({ length: 3 * n }, (_, i) => [r, g, b][i % 3]),
      change: new Float64Array(3 * n),
      medianChange: null,
      offsetCovariance,
    };
  }
  const before = triplesAt(cells.before, bare.cells);
  const change = triplesAt(cells.after, bare.cells);
  for (let i = 0; i < change.length; i++) change[i] -= before[i];
  const band = (values: Float64Array, c: number): Float64Array =>
    values.filter((_, i) => i % 3 === c);
  const bandMedian = (values: Float64Array): Triple => [
    median(band(values, 0)),
    median(band(values, 1)),
    median(band(values, 2)),
  ];
  const medianChange = bandMedian(change);
  for (let c = 0; c < 3; c++)
    offsetCovariance[4 * c] = (0.01 + 0.2 * Math.abs(medianChange[c])) ** 2;
  const places = Int32Array.from(bare.cells, (i) => cells.places[i]);
  const fields = [0, 1, 2, 3, 4, 5].map((f) => band(f < 3 ? before : change, f % 3));
  const smooth = smoothedAt(cells, places, fields);
  const [r, g, b] = bandMedian(before);
  return {
    source: "bare",
    bands: [Math.exp(r), Math.exp(g), Math.exp(b)],
    before: interleaved(smooth.slice(0, 3)),
    change: interleaved(smooth.slice(3)),
    medianChange,
    offsetCovariance,
  };
}

function interleaved(bands: readonly Float64Array[]): Float64Array {
  return Float64Array.from({ length: 3 * bands[0].length }, (_, i) => bands[i % 3][(i / 3) | 0]);
}

/**
 * Kernel means of values known at some places, at every cell. The kernel is a product of one along rows and one along columns, taken at
 * nodes of 5 mm; straight lines between them are within 0.5 % of a bell of 25 mm.
 */
function smoothedAt(
  { width, height, places: cells }: PlateCells,
  places: Int32Array,
  values: readonly Float64Array[],
): Float64Array[] {
  const columns = Math.ceil((width - 1) / NODE_MM) + 1;
  const rows = Math.ceil((height - 1) / NODE_MM) + 1;
  const kernel = Float64Array.from(
    { length: REACH_SIGMAS * SIGMA_MM + 1 },
    (_, d) => Math.exp(-((d / SIGMA_MM) ** 2) / 2) / (SIGMA_MM * Math.sqrt(2 * Math.PI)),
  );
  const spreadOver = (value: (i: number) => number): Float64Array => {
    const along = new Float64Array(columns * height);
    for (let i = 0; i < places.length; i++) {
      const row = Math.floor(places[i] / width);
      const column = places[i] - row * width;
      const v = value(i);
      for (let node = 0; node < columns; node++) {
        const d = Math.abs(node * NODE_MM - column);
        if (d < kernel.length) along[row * columns + node] += v * kernel[d];
      }
    }
    const nodes = new Float64Array(columns * rows);
    for (let nodeRow = 0; nodeRow < rows; nodeRow++)
      for (let row = 0; row < height; row++) {
        const d = Math.abs(nodeRow * NODE_MM - row);
        if (d >= kernel.length) continue;
        for (let node = 0; node < columns; node++)
          nodes[nodeRow * columns + node] += along[row * columns + node] * kernel[d];
      }
    return nodes;
  };
  const weight = spreadOver(() => 1);
  return values.map((list) => {
    const centre = mean(list);
    const nodes = spreadOver((i) => list[i] - centre).map(
      (sum, i) => sum / (weight[i] + WEIGHT_OF_MEAN),
    );
    return Float64Array.from(cells, (place) => {
      const row = Math.floor(place / width);
      const x = (place - row * width) / NODE_MM;
      const y = row / NODE_MM;
      const x0 = Math.min(Math.floor(x), Math.max(0, columns - 2));
      const y0 = Math.min(Math.floor(y), Math.max(0, rows - 2));
      const x1 = Math.min(x0 + 1, columns - 1);
      const y1 = Math.min(y0 + 1, rows - 1);
      const [tx, ty] = [x - x0, y - y0];
      const upper = nodes[y0 * columns + x0] * (1 - tx) + nodes[y0 * columns + x1] * tx;
      const lower = nodes[y1 * columns + x0] * (1 - tx) + nodes[y1 * columns + x1] * tx;
      return centre + upper * (1 - ty) + lower * ty;
    });
  });
}
