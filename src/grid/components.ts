/** Contiguous pieces of one label, numbered from 0 in the order of their first cell in the raster. */
export interface Components {
  /** Piece of each cell; -1 where the label is 0. */
  readonly piece: Int32Array;
  /** Per piece: its label and its number of cells. */
  readonly label: Uint8Array;
  readonly cells: Int32Array;
}

/**
 * Contiguous pieces of a label picture (neighbours share a side), by union-find in one sweep and one numbering sweep.
 * @param labels Row-major; 0 = nothing.
 */
export function components(labels: Uint8Array, width: number, height: number): Components {
  const size = width * height;
  const parent = new Int32Array(size);
  const find = (i: number): number => {
    while (parent[i] !== i) {
      parent[i] = parent[parent[i]];
      i = parent[i];
    }
    return i;
  };
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const i = y * width + x;
      const label = labels[i];
      if (label === 0) {
        parent[i] = -1;
        continue;
      }
      const joinsLeft = x > 0 && labels[i - 1] === label;
      const joinsUp = y > 0 && labels[i - width] === label;
      if (joinsLeft) parent[i] = parent[i - 1];
      else parent[i] = joinsUp ? parent[i - width] : i;
      // Left and upper cell already hang together when the cell between them has their label.
      if (joinsLeft && joinsUp && labels[i - width - 1] !== label) {
        const left = find(i - 1);
        const up = find(i - width);
        // The earlier cell becomes the root, so that roots come first in the raster.
        if (left < up) parent[up] = left;
        else parent[left] = up;
      }
    }
  }
  const piece = parent; // renumbered in place: a root always lies before its members
  const labelOf: number[] = [];
  const cellsOf: number[] = [];
  for (let i = 0; i < size; i++) {
    const up = parent[i];
    if (up < 0) continue;
    if (up === i) {
      piece[i] = labelOf.length;
      labelOf.push(labels[i]);
      cellsOf.push(1);
    } else {
      const number = piece[up];
      piece[i] = number;
      cellsOf[number]++;
    }
  }
  return { piece, label: Uint8Array.from(labelOf), cells: Int32Array.from(cellsOf) };
}
