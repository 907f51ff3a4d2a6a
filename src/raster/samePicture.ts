import type { RowSource } from "./rowSource.ts";

/** Rows read at a time. */
const BAND_ROWS = 64;

/** 16-bit codes a code of 8 bit. */
const WORDS_A_BYTE = 257;

/** A picture saved with fewer bits is cut or rounded: within one code either way. */
const ROUNDED = 1;

/**
 * Whether two pictures hold the same pixels, upright, whatever their files' names, kinds and compressions. Two exposures never do:
 * their noise differs. With different bits a channel, every code must agree within the rounding.
 * Reads only as far as the first difference.
 */
export function samePicture(one: RowSource, other: RowSource): boolean {
  const { width, height } = one;
  if (other.width !== width || other.height !== height) return false;
  if (one.bitDepth > other.bitDepth) return samePicture(other, one);
  const perCode = one.bitDepth === other.bitDepth ? 1 : WORDS_A_BYTE;
  const allowed = perCode === 1 ? 0 : ROUNDED;
  for (let first = 0; first < height; first += BAND_ROWS) {
    const count = Math.min(BAND_ROWS, height - first);
    const a = one.rows(first, count);
    const b = other.rows(first, count);
    for (let i = 0; i < a.length; i++) if (Math.abs(a[i] - b[i] / perCode) > allowed) return false;
  }
  return true;
}
