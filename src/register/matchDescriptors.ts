/** A match counts when the best distance is below this share of the second best (Lowe 2004, the ratio test). */
const LEAST_DISTINCTION = 0.85;

/** Binary descriptors as 32-bit words, zero-padded, row-major. */
export interface PackedDescriptors {
  readonly words: Uint32Array;
  readonly wordsEach: number;
  readonly count: number;
}

/** Packs the descriptors of the key points named in `indices`, in that order. */
export function packDescriptors(
  descriptors: Uint8Array,
  bytesEach: number,
  indices: readonly number[],
): PackedDescriptors {
  const wordsEach = Math.ceil(bytesEach / 4);
  const bytes = new Uint8Array(4 * wordsEach * indices.length);
  indices.forEach((index, k) => {
    bytes.set(descriptors.subarray(index * bytesEach, (index + 1) * bytesEach), 4 * wordsEach * k);
  });
  return { words: new Uint32Array(bytes.buffer), wordsEach, count: indices.length };
}

/** The number of set bits of a 32-bit word. */
function bitCount(word: number): number {
  let v = word - ((word >>> 1) & 0x55555555);
  v = (v & 0x33333333) + ((v >>> 2) & 0x33333333);
  return Math.imul((v + (v >>> 4)) & 0x0f0f0f0f, 0x01010101) >>> 24;
}

/**
 * For each descriptor of `query` the nearest of `train` by Hamming distance, where it stands out from the second nearest.
 * @returns Index in `train`, or -1 where nothing stands out; one entry for each of `query`.
 */
export function matchDescriptors(query: PackedDescriptors, train: PackedDescriptors): Int32Array {
  const { wordsEach } = query;
  if (wordsEach !== train.wordsEach && query.count > 0 && train.count > 0)
    throw new RangeError("Expected descriptors of one length.");
  const a = query.words;
  const b = train.words;
  const matches = new Int32Array(query.count).fill(-1);
  for (let i = 0; i < query.count; i++) {
    const from = i * wordsEach;
    let best = Infinity;
    let second = Infinity;
    let bestIndex = -1;
    for (let j = 0, at = 0; j < train.count; j++, at += wordsEach) {
      let distance = 0;
      for (let w = 0; w < wordsEach && distance < second; w++)
        distance += bitCount(a[from + w] ^ b[at + w]);
      if (distance < best) {
        second = best;
        best = distance;
        bestIndex = j;
      } else if (distance < second) second = distance;
    }
    if (best < LEAST_DISTINCTION * second) matches[i] = bestIndex;
  }
  return matches;
}
