import { type Primaries, YULE_NIELSEN } from "./primaries.ts";
import { primaryShares } from "./primaryShares.ts";

/** What the model says of cells whose coverages are known between two ends, as means of both. Three bands a cell, k plates a band. */
export interface CellModel {
  /** m(c, f) - m(c, 0): change of ln T by the losses, 3 a cell. */
  readonly change: Float64Array;
  /** G: what losing a plate's colourant does, 3 x k a cell (band by band). */
  readonly response: Float64Array;
  /** How far both ends differ in G, 3 x k a cell. */
  readonly ambiguity: Float64Array;
  /** att: how much of the paper's change shows through, 3 a cell. */
  readonly through: Float64Array;
  /** c, k a cell. */
  readonly coverage: Float64Array;
  /** ln T of the cell before, as printed, 3 a cell. */
  readonly logT: Float64Array;
}

/**
 * Evaluates the cells.
 * @param unchanged Primaries without loss. @param changed The same with the losses.
 * @param ends The two solutions of the coverages, k a cell.
 */
export function cellModel(
  unchanged: Primaries,
  changed: Primaries,
  ends: readonly [Float64Array, Float64Array],
): CellModel {
  const { plates: k, count } = unchanged;
  const n = ends[0].length / k;
  const model = {
    change: new Float64Array(3 * n),
    response: new Float64Array(3 * n * k),
    ambiguity: new Float64Array(3 * n * k),
    through: new Float64Array(3 * n),
    coverage: new Float64Array(n * k),
    logT: new Float64Array(3 * n),
  };
  const { change, response, ambiguity, through, coverage, logT } = model;
  const { Q: Q0, through: att } = unchanged;
  const { Q, dQ } = changed;
  const shares = new Float64Array(count);
  for (let end = 0; end < 2; end++) {
    const c = ends[end];
    for (let i = 0; i < n * k; i++) coverage[i] += c[i] / 2;
    for (let cell = 0; cell < n; cell++) {
      primaryShares(c, k * cell, k, shares);
      for (let band = 0; band < 3; band++) {
        const at = band * count;
        let before = 0;
        let after = 0;
        let shown = 0;
        for (let j = 0; j < count; j++) {
          const part = shares[j] * Q0[at + j];
          before += part;
          shown += part * att[at + j];
          after += shares[j] * Q[at + j];
        }
        const row = 3 * cell + band;
        const lnBefore = YULE_NIELSEN * Math.log(before);
        logT[row] += lnBefore / 2;
        change[row] += (YULE_NIELSEN * Math.log(after) - lnBefore) / 2;
        through[row] += shown / before / 2;
        for (let i = 0; i < k; i++) {
          const from = (band * k + i) * count;
          let moved = 0;
          for (let j = 0; j < count; j++) moved += shares[j] * dQ[from + j];
          const G = (YULE_NIELSEN * moved) / after;
          const entry = row * k + i;
          response[entry] += G / 2;
          ambiguity[entry] = end === 0 ? G : Math.abs(ambiguity[entry] - G);
        }
      }
    }
  }
  return model;
}
