/** Bytes that threads pass to each other without a copy, all 0. */
export function sharedBytes(length: number): Uint8Array<SharedArrayBuffer> {
  return new Uint8Array(new SharedArrayBuffer(length));
}
