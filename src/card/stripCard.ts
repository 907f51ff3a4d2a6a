import { STRIP_CARD_LAYOUT, STRIP_CARD_PATCHES } from "../../calibration/strip-card.ts";
import type { Card } from "./card.ts";

/** The printable strip as a card: printing aims, so it serves differences only until a measured reference file replaces it. */
export const STRIP_CARD: Card = {
  name: "strip",
  title: "printed strip card",
  rows: STRIP_CARD_LAYOUT.rows,
  columns: STRIP_CARD_LAYOUT.columns,
  patches: STRIP_CARD_PATCHES.map(([name, lab]) => ({
    name,
    lab,
    neutral: lab[1] === 0 && lab[2] === 0,
  })),
  pitchMm: STRIP_CARD_LAYOUT.pitchMm,
  measured: false,
  source: "printing aims of the strip card, CIELAB D50; not measured on any copy",
};
