const MARKER = 0xff;
const TEM = 0x01;
const RST0 = 0xd0;
const RST7 = 0xd7;
const EOI = 0xd9;
const SOS = 0xda;
/** After a marker byte in coded data: a coded 255, not a marker. */
const STUFFED = 0x00;

/** Where the coded data that begin at `at` end: at the next marker that isn't a restart, or at the end of the bytes. */
function endOfCodedData(bytes: Buffer, at: number): number {
  for (let next = bytes.indexOf(MARKER, at); next !== -1; next = bytes.indexOf(MARKER, next + 2)) {
    const code = bytes[next + 1];
    if (code !== STUFFED && !(code >= RST0 && code <= RST7)) return next;
  }
  return bytes.length;
}

/**
 * Whether a JPEG's own end mark stands where its data end (ISO/IEC 10918-1, annex B). A copy that broke off and was filled up
 * with zeros has none, and decoders paint the rest without a word: zeros are valid codes. What follows the end mark (previews,
 * a film) is not looked at.
 */
export function jpegIsComplete(bytes: Buffer): boolean {
  let at = 2;
  while (at + 1 < bytes.length) {
    const code = bytes[at + 1];
    if (bytes[at] !== MARKER || code === MARKER) {
      // Fill bytes, or a slip between segments that decoders skip.
      at++;
      continue;
    }
    if (code === EOI) return true;
    at += 2;
    if (code === TEM || code === STUFFED || (code >= RST0 && code <= RST7)) continue;
    if (at + 2 > bytes.length) return false;
    at += bytes.readUInt16BE(at);
    if (code === SOS) at = endOfCodedData(bytes, at);
  }
  return false;
}
