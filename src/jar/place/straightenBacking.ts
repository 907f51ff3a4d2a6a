import { JAR_BACKING } from "../../../calibration/jar-backing.ts";
import type { Matrix3 } from "../../numeric/matrix3.ts";
import type { Raster } from "../../raster/raster.ts";
import type { LocatedBacking } from "./locateBacking.ts";

/** Finest scale of the straightened sheet: the fine stripes are then 18 pixels apart. */
const FINEST_PIXELS_PER_MM = 6;

/** Kept round the stripes. */
const MARGIN_MM = 2;

/** The stripes of the sheet seen square on; 16-bit codes, so that nothing is rounded twice. */
export interface StraightBacking {
  /** The size of the sheet; only the stripes are filled in, the rest is 0. */
  readonly raster: Raster;
  /** Pixel = mm x pixelsPerMm - 0.5. */
  readonly pixelsPerMm: number;
}

/**
 * Resamples the backing to the sheet's own millimetres: bilinear on the codes, averaged over several points where the photo is
 * finer. Stripes' edges are smoothed by it, their insides are not.
 * @param scale Pixels a millimetre wanted; never finer than 6. Default: the photo's own.
 */
export function straightenBacking(
  photo: Raster,
  backing: LocatedBacking,
  scale = backing.pixelsPerMm,
): StraightBacking {
  const { widthMm, heightMm, stripesLeftMm, stripesRightMm, zones } = JAR_BACKING;
  const pixelsPerMm = Math.min(FINEST_PIXELS_PER_MM, scale);
  const points = Math.min(3, Math.max(1, Math.round(backing.pixelsPerMm / pixelsPerMm)));
  const width = Math.floor(widthMm * pixelsPerMm);
  const height = Math.floor(heightMm * pixelsPerMm);
  const data = new Uint16Array(3 * width * height);
  const toWords = 65535 / (2 ** photo.bitDepth - 1) / (points * points);
  const left = Math.floor((stripesLeftMm - MARGIN_MM) * pixelsPerMm);
  const right = Math.ceil((stripesRightMm + MARGIN_MM) * pixelsPerMm);
  const top = Math.floor((zones[0].fromMm - MARGIN_MM) * pixelsPerMm);
  const bottom = Math.ceil((zones[zones.length - 1].toMm + MARGIN_MM) * pixelsPerMm);
  const row: SheetRow = {
    photo,
    toPixels: backing.toPixels,
    points,
    perPoint: 1 / (points * pixelsPerMm),
    left,
    right,
    sum: new Float64Array(3 * width),
  };
  const { sum } = row;
  for (let y = top; y < bottom; y++) {
    sum.fill(0);
    for (let j = 0; j < points; j++) addRow(row, (y + (j + 0.5) / points) / pixelsPerMm);
    const start = 3 * y * width;
    for (let i = 3 * left; i < 3 * right; i++) data[start + i] = Math.round(sum[i] * toWords);
  }
  return { raster: { width, height, bitDepth: 16, data }, pixelsPerMm };
}

/** How a row of the sheet is read. */
interface SheetRow {
  readonly photo: Raster;
  readonly toPixels: Matrix3;
  /** Places a pixel, and mm from one to the next. */
  readonly points: number;
  readonly perPoint: number;
  /** Pixels of the straightened sheet from which to which. */
  readonly left: number;
  readonly right: number;
  /** Receives the codes, three a pixel. */
  readonly sum: Float64Array;
}

/** Adds the codes along the row at `v` mm of the sheet, bilinear. */
function addRow(
  { photo, toPixels: H, points, perPoint, left, right, sum }: SheetRow,
  v: number,
): void {
  const { width, height, data } = photo;
  const x0 = H[1] * v + H[2];
  const y0 = H[4] * v + H[5];
  const w0 = H[7] * v + H[8];
  const stride = 3 * width;
  for (let p = left * points; p < right * points; p++) {
    const u = (p + 0.5) * perPoint;
    const w = H[6] * u + w0;
    const x = (H[0] * u + x0) / w;
    const y = (H[3] * u + y0) / w;
    if (!(x >= 0 && y >= 0 && x < width - 1 && y < height - 1)) continue;
    const column = Math.floor(x);
    const row = Math.floor(y);
    const fx = x - column;
    const fy = y - row;
    const i = row * stride + 3 * column;
    const a = (1 - fx) * (1 - fy);
    const b = fx * (1 - fy);
    const c = (1 - fx) * fy;
    const d = fx * fy;
    const at = 3 * Math.floor(p / points);
    sum[at] += a * data[i] + b * data[i + 3] + c * data[i + stride] + d * data[i + stride + 3];
    sum[at + 1] +=
      a * data[i + 1] + b * data[i + 4] + c * data[i + stride + 1] + d * data[i + stride + 4];
    sum[at + 2] +=
      a * data[i + 2] + b * data[i + 5] + c * data[i + stride + 2] + d * data[i + stride + 5];
  }
}
