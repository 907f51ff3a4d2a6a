import type { Box } from "../../grid/box.ts";
import { ROUND_WIDTH_SHARE, type Station, type StripeZone } from "./station.ts";

/** Wide stripes of the backing are printed 10 mm apart: that gives the scale of a station file. */
const WIDE_PERIOD_MM = 10;

/** Kept away from walls (refraction), meniscus and foam, and sediment. */
const WALL_MM = 6;
const MENISCUS_MM = 4;
const SEDIMENT_MM = 3;

/** Margins never take more than this share of a box: a box drawn inside them already stays as it is, nearly. */
const LARGEST_TRIM = 0.4;

/** What is read of a stripe zone: its box inside the liquid less the margins; in a round jar the central part only. */
export function trimBox(station: Station, { box }: StripeZone): Box {
  const pixelsPerMm = station.stripes.wide.periodPixels / WIDE_PERIOD_MM;
  const [lx, ly, lw, lh] = station.liquidBox;
  const side = station.jar === "round" ? (lw * (1 - ROUND_WIDTH_SHARE)) / 2 : WALL_MM * pixelsPerMm;
  const [x, width] = trimmed(box[0], box[2], lx + side, lx + lw - side);
  const [y, height] = trimmed(
    box[1],
    box[3],
    ly + MENISCUS_MM * pixelsPerMm,
    ly + lh - SEDIMENT_MM * pixelsPerMm,
  );
  return [x, y, width, height];
}

/** Start and length of a span cut to a range, but by no more than the largest trim in all. */
function trimmed(start: number, length: number, low: number, high: number): [number, number] {
  const from = Math.max(start, low);
  const to = Math.min(start + length, high);
  const least = (1 - LARGEST_TRIM) * length;
  if (to - from >= least) return [from, to - from];
  // Keeps the middle of what the range leaves, widened as far as the box allows.
  const middle = Math.min(start + length - least / 2, Math.max(start + least / 2, (from + to) / 2));
  return [middle - least / 2, least];
}
