/**
 * An image as its file holds it: device code values, no profile applied, upright (EXIF orientation applied).
 * Row-major, interleaved R G B. Pixel (0, 0) is the centre of the top-left pixel; x right, y down.
 */
export interface Raster {
  readonly width: number;
  readonly height: number;
  /** 8: codes 0..255 in a Uint8Array. 16: codes 0..65535 in a Uint16Array. */
  readonly bitDepth: 8 | 16;
  /** Length width * height * 3. */
  readonly data: Uint8Array | Uint16Array;
}

/** What is known of an image file beside its pixels. */
export interface ScanInfo {
  /** The path as the caller gave it. */
  readonly file: string;
  /** Of the bytes of the file, lower-case hex. */
  readonly sha256: string;
  readonly widthPixels: number;
  readonly heightPixels: number;
  /** null where the file holds none, or 72 (a writer's default that says nothing). */
  readonly dpi: number | null;
  readonly bitDepth: 8 | 16;
  /** Description of the embedded profile; null where there is none. It is never applied. */
  readonly profile: string | null;
  /** EXIF orientation 1..8 that was undone. */
  readonly orientation: number;
  /** Pages in the file; 1 for most. */
  readonly pages: number;
  /** Wall-clock time of capture where the file tells it, ISO 8601 without zone. */
  readonly takenAt: string | null;
}
