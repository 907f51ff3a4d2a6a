/** What the first bytes of a file say it is. The name's ending is never asked. */
export type FileKind =
  | "jpeg"
  | "png"
  | "tiff"
  | "camera-raw"
  | "heic"
  | "avif"
  | "webp"
  | "gif"
  | "bmp"
  | "jpeg-2000"
  | "jpeg-xl"
  | "pdf"
  | "zip"
  | "text"
  | "empty"
  | "unknown";

/** So many bytes are enough for `fileKind`. */
export const BYTES_TO_TELL = 512;

/** Fixed bytes at fixed places, from the formats' own specifications; the first entry that fits counts. */
const SIGNATURES: readonly (readonly [kind: FileKind, offset: number, bytes: string])[] = [
  ["jpeg", 0, "\xff\xd8\xff"],
  ["png", 0, "\x89PNG\r\n\x1a\n"],
  // A TIFF header followed by this mark, or with a version of its own, holds undeveloped sensor data.
  ["camera-raw", 0, "II*\0\x10\0\0\0CR"],
  ["camera-raw", 0, "IIU\0"],
  ["camera-raw", 0, "IIRO"],
  ["camera-raw", 0, "MMOR"],
  ["camera-raw", 4, "ftypcrx "],
  ["tiff", 0, "II*\0"],
  ["tiff", 0, "MM\0*"],
  ["tiff", 0, "II+\0"],
  ["tiff", 0, "MM\0+"],
  ["webp", 8, "WEBP"],
  ["gif", 0, "GIF8"],
  ["bmp", 0, "BM"],
  ["jpeg-2000", 0, "\0\0\0\x0cjP  "],
  ["jpeg-2000", 0, "\xff\x4f\xff\x51"],
  ["jpeg-xl", 0, "\0\0\0\x0cJXL "],
  ["jpeg-xl", 0, "\xff\x0a"],
  ["pdf", 0, "%PDF"],
  ["zip", 0, "PK\x03\x04"],
];

/** Brands of ISO/IEC 23008-12 for pictures coded by HEVC, and the structural ones that come with them. */
const HEIC_BRANDS = /^(hei[cxms]|hev[cmxs]|mif1|msf1)$/;
const AVIF_BRANDS = /^avi[fs]$/;

/** The kind of picture in an ISO base media file, by its `ftyp` box: the major brand, or else a compatible one. */
function kindByBrand(head: Buffer): FileKind {
  const end = Math.min(head.length, Math.max(16, head.readUInt32BE(0)));
  const brands = [head.toString("latin1", 8, 12)];
  for (let at = 16; at + 4 <= end; at += 4) brands.push(head.toString("latin1", at, at + 4));
  if (brands.some((brand) => AVIF_BRANDS.test(brand))) return "avif";
  return brands.some((brand) => HEIC_BRANDS.test(brand)) ? "heic" : "unknown";
}

/** UTF-8 or Latin-1 text without control characters, or UTF-16 with its mark. */
function looksLikeText(head: Buffer): boolean {
  if (/^(\xff\xfe|\xfe\xff)/.test(head.toString("latin1", 0, 2))) return true;
  // Tab to carriage return, and escape.
  return head.every((byte) => byte >= 32 || (byte >= 9 && byte <= 13) || byte === 27);
}

/**
 * Tells what a file is.
 * @param head Its first `BYTES_TO_TELL` bytes, or all of a shorter file.
 */
export function fileKind(head: Buffer): FileKind {
  if (head.length === 0) return "empty";
  const text = head.toString("latin1");
  const match = SIGNATURES.find(([, offset, bytes]) => text.startsWith(bytes, offset));
  if (match !== undefined) return match[0];
  if (text.startsWith("ftyp", 4) && head.length >= 12) return kindByBrand(head);
  return looksLikeText(head) ? "text" : "unknown";
}
