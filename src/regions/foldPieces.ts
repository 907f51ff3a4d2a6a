import { components } from "../grid/components.ts";

export interface Folded {
  readonly labels: Uint8Array;
  /** 1 where a piece of another colour was folded in: such cells must not enter a mean. */
  readonly strangers: Uint8Array;
}

/**
 * Folds pieces that are too small into the label around them: that of the neighbouring pieces with the longest common
 * border. Smallest first; a piece among small ones waits until one of them has been folded. A small piece with nothing
 * around it (an island in label 0) stays.
 * @param leastCells Pieces with fewer cells are folded.
 * @param leastStranger Folded pieces with at least so many cells are strangers in their surroundings; smaller ones are noise.
 */
export function foldPieces(
  labels: Uint8Array,
  width: number,
  height: number,
  leastCells: number,
  leastStranger: number,
): Folded {
  const { piece, label, cells } = components(labels, width, height);
  const current = label.slice();
  const settled = Uint8Array.from(cells, (n) => (n >= leastCells ? 1 : 0));
  const small = Array.from(cells.keys())
    .filter((k) => settled[k] === 0)
    .sort((p, q) => cells[p] - cells[q] || p - q);

  // The cells of the small pieces, piece after piece.
  const start = new Int32Array(cells.length + 1);
  for (let k = 0; k < cells.length; k++)
    start[k + 1] = start[k] + (settled[k] === 1 ? 0 : cells[k]);
  const list = new Int32Array(start[cells.length]);
  const next = start.slice();
  for (let i = 0; i < piece.length; i++) {
    const k = piece[i];
    if (k >= 0 && settled[k] === 0) list[next[k]++] = i;
  }

  const border = new Float64Array(256);
  const surroundingLabel = (k: number): number => {
    border.fill(0);
    const touch = (i: number): void => {
      const other = piece[i];
      if (other >= 0 && settled[other] === 1) border[current[other]]++;
    };
    for (let n = start[k]; n < start[k + 1]; n++) {
      const i = list[n];
      const x = i % width;
      if (x > 0) touch(i - 1);
      if (x < width - 1) touch(i + 1);
      if (i >= width) touch(i - width);
      if (i + width < piece.length) touch(i + width);
    }
    let best = 0;
    for (let l = 1; l < 256; l++) if (border[l] > border[best]) best = l;
    return best;
  };

  let waiting = small;
  for (;;) {
    const still: number[] = [];
    for (const k of waiting) {
      const around = surroundingLabel(k);
      if (around === 0) still.push(k);
      else {
        current[k] = around;
        settled[k] = 1;
      }
    }
    if (still.length === 0 || still.length === waiting.length) break;
    waiting = still;
  }

  const out = new Uint8Array(labels.length);
  const strangers = new Uint8Array(labels.length);
  for (let i = 0; i < out.length; i++) {
    const k = piece[i];
    if (k < 0) continue;
    out[i] = current[k];
    if (current[k] !== label[k] && cells[k] >= leastStranger) strangers[i] = 1;
  }
  return { labels: out, strangers };
}
