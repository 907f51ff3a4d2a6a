/**
 * Gives each cell the commonest label of its 3 x 3 neighbourhood; its own label wins a tie. Label 0 (not measured)
 * neither votes nor changes.
 * @returns A new array.
 */
export function majorityFilter(labels: Uint8Array, width: number, height: number): Uint8Array {
  const out = labels.slice();
  const votes = new Uint8Array(256);
  for (let y = 0; y < height; y++) {
    const y0 = Math.max(0, y - 1);
    const y1 = Math.min(height - 1, y + 1);
    for (let x = 0; x < width; x++) {
      const i = y * width + x;
      const own = labels[i];
      if (own === 0) continue;
      const x0 = Math.max(0, x - 1);
      const x1 = Math.min(width - 1, x + 1);
      let strangers = 0;
      for (let v = y0; v <= y1; v++)
        for (let u = x0; u <= x1; u++) if (labels[v * width + u] !== own) strangers++;
      // Five or more of nine are needed to outvote the cell itself and its kin in any split.
      if (strangers < 5 && (y1 - y0) * (x1 - x0) === 4) continue;
      for (let v = y0; v <= y1; v++) for (let u = x0; u <= x1; u++) votes[labels[v * width + u]]++;
      let best = own;
      for (let v = y0; v <= y1; v++)
        for (let u = x0; u <= x1; u++) {
          const label = labels[v * width + u];
          if (label !== 0 && votes[label] > votes[best]) best = label;
        }
      out[i] = best;
      for (let v = y0; v <= y1; v++)
        for (let u = x0; u <= x1; u++) votes[labels[v * width + u]] = 0;
    }
  }
  return out;
}
