/**
 * The cells of every label, in one counting pass.
 * @param labels One label 0..255 a cell; 0 is left out.
 * @param usable One flag a cell; cells with 0 are left out.
 * @returns Indices in ascending order, by label; labels without cells are absent.
 */
export function cellsByLabel(labels: Uint8Array, usable: Uint8Array): Map<number, Int32Array> {
  const counts = new Int32Array(256);
  for (let i = 0; i < labels.length; i++) if (usable[i] !== 0) counts[labels[i]]++;
  const cells = new Map<number, Int32Array>();
  for (let label = 1; label < 256; label++)
    if (counts[label] > 0) cells.set(label, new Int32Array(counts[label]));
  const filled = new Int32Array(256);
  for (let i = 0; i < labels.length; i++) {
    const label = labels[i];
    if (label !== 0 && usable[i] !== 0) cells.get(label)![filled[label]++] = i;
  }
  return cells;
}
