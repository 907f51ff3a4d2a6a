/** The other cells of a mask of 0 and 1. */
export function complement(mask: Uint8Array): Uint8Array {
  const out = new Uint8Array(mask.length);
  for (let i = 0; i < out.length; i++) out[i] = 1 - mask[i];
  return out;
}
