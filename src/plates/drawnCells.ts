import type { PaperField } from "./paperField.ts";
import { type PlateCells, triplesAt } from "./plateCells.ts";

/** What a regression works from: some cells of the sheet, three values a cell unless said otherwise. */
export interface DrawnCells {
  /** x = ln of the bands before over those of the paper. */
  readonly logT: Float64Array;
  /** y = change of ln of the bands. */
  readonly change: Float64Array;
  /** ln of the bands before. */
  readonly before: Float64Array;
  /** p: change of ln of the bare paper at the cell. */
  readonly paperChange: Float64Array;
  /** e, one value a cell. */
  readonly spread: Float64Array;
}

/** The cells at some of their indices. */
export function drawnCells(cells: PlateCells, paper: PaperField, indices: Int32Array): DrawnCells {
  const before = triplesAt(cells.before, indices);
  const logT = triplesAt(paper.before, indices);
  const change = triplesAt(cells.after, indices);
  for (let i = 0; i < before.length; i++) {
    logT[i] = before[i] - logT[i];
    change[i] -= before[i];
  }
  return {
    logT,
    change,
    before,
    paperChange: triplesAt(paper.change, indices),
    spread: Float64Array.from(indices, (i) => cells.spread[i]),
  };
}
