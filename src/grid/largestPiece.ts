import { components } from "./components.ts";

/** The largest contiguous piece of a mask; null where the mask is empty. */
export function largestPiece(mask: Uint8Array, width: number, height: number): Uint8Array | null {
  const { piece, cells } = components(mask, width, height);
  if (cells.length === 0) return null;
  let largest = 0;
  for (let k = 1; k < cells.length; k++) if (cells[k] > cells[largest]) largest = k;
  const out = new Uint8Array(mask.length);
  for (let i = 0; i < out.length; i++) if (piece[i] === largest) out[i] = 1;
  return out;
}
