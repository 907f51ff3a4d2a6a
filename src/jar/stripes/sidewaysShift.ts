import type { LitPhoto } from "../optics/linearPhoto.ts";
import type { Box } from "../../grid/box.ts";
import { mean } from "../../numeric/statistics.ts";
import { lightBox } from "../optics/lightBox.ts";
import type { Station } from "../place/station.ts";

/** Search on each side of where a wall was, and strip compared about it, mm. */
const SEARCH_MM = 8;
const STRIP_MM = 6;

/** Wide stripes are 10 mm apart. */
const WIDE_PERIOD_MM = 10;

/** A match of the walls' profiles below this correlation says nothing. */
const LEAST_CORRELATION = 0.7;

/** An edge must stand out from the profile's own noise this many times. */
const LEAST_SALIENCE = 6;

/**
 * How far the jar stands sideways from where it stood in the blank: horizontal stripes can't tell. The walls' profile of steps
 * (mean light of each column, its change from column to column, unsigned: liquid may darken one side) is matched between the photos.
 * @returns Millimetres to the right, mean of both walls; NaN where no wall shows clearly in both photos, or the walls disagree.
 */
export function sidewaysShift(sample: LitPhoto, blank: LitPhoto, station: Station): number {
  const pixelsPerMm = station.stripes.wide.periodPixels / WIDE_PERIOD_MM;
  const reach = Math.round((SEARCH_MM + STRIP_MM) * pixelsPerMm);
  const [x, y, width, height] = station.liquidBox;
  const shifts = [x, x + width].map((wall) =>
    wallShift(sample, blank, [Math.round(wall) - reach, y, 2 * reach + 1, height], pixelsPerMm),
  );
  return Math.abs(shifts[0] - shifts[1]) < 1 ? mean(shifts) : NaN;
}

/** Of one wall, in the box about where it was. */
function wallShift(sample: LitPhoto, blank: LitPhoto, box: Box, pixelsPerMm: number): number {
  const search = Math.round(SEARCH_MM * pixelsPerMm);
  const s = steps(sample, box);
  const b = steps(blank, box);
  if (s === null || b === null || !salient(s) || !salient(b)) return NaN;
  let best = -1;
  let shift = NaN;
  const from = search;
  const to = b.length - search;
  for (let d = -search; d <= search; d++) {
    const r = correlation(b, s, from, to, d);
    if (r > best) {
      best = r;
      shift = d;
    }
  }
  return best >= LEAST_CORRELATION ? shift / pixelsPerMm : NaN;
}

/** Unsigned change of the mean log light from column to column. */
function steps(photo: LitPhoto, box: Box): Float64Array | null {
  const read = lightBox(photo.raster, box, photo.table);
  if (read === null) return null;
  const columns = new Float64Array(read.width);
  for (let row = 0; row < read.height; row++)
    for (let x = 0; x < read.width; x++) columns[x] += read.light[1][row * read.width + x];
  const out = new Float64Array(read.width - 2);
  for (let x = 0; x < out.length; x++)
    out[x] = Math.abs(Math.log(Math.max(1e-6, columns[x + 2]) / Math.max(1e-6, columns[x])));
  return out;
}

function salient(profile: Float64Array): boolean {
  const sorted = Float64Array.from(profile).sort();
  return sorted[sorted.length - 1] > LEAST_SALIENCE * sorted[sorted.length >> 1];
}

/** Pearson correlation of b over [from, to) with s moved by d. */
function correlation(
  b: Float64Array,
  s: Float64Array,
  from: number,
  to: number,
  d: number,
): number {
  const n = to - from;
  const mb = mean(b.subarray(from, to));
  const ms = mean(s.subarray(from + d, to + d));
  let bs = 0;
  let bb = 0;
  let ss = 0;
  for (let i = 0; i < n; i++) {
    const u = b[from + i] - mb;
    const v = s[from + d + i] - ms;
    bs += u * v;
    bb += u * u;
    ss += v * v;
  }
  return bs / Math.sqrt(bb * ss);
}
