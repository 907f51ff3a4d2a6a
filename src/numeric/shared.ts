/** Bytes that threads pass to each other without a copy, all 0. */
export function sharedBytes(length: number): Uint8Array<SharedArrayBuffer> {
  return new Uint8Array(new SharedArrayBuffer(length));
}

/** The same for figures in single precision. */
export function sharedFloats(length: number): Float32Array<SharedArrayBuffer> {
  return new Float32Array(new SharedArrayBuffer(4 * length));
}
