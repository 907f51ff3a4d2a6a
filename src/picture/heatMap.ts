import chroma from "chroma-js";
import { type Hatching, hatched } from "./hatching.ts";
import type { Rgb } from "./rgb.ts";

/** The scale never moves, so that two reports can be laid side by side. What matters on a cover happens below 4. */
export const HEAT_MAP_MAX_DELTA_E00 = 4;

const STEPS = 256;

/** Perceptually even and safe for colour-blind readers; 0 at its dark end. */
const VIRIDIS = chroma.scale("Viridis");

/** One colour a step of the scale. */
const SCALE: readonly Rgb[] = Array.from({ length: STEPS }, (_, i) => {
  const [r, g, b] = VIRIDIS(i / (STEPS - 1)).rgb();
  return [r, g, b] as const;
});

/** Colours that are not on the scale, so that they can't be read as a value. */
export const HEAT_MAP_COLOURS = {
  /** Off the sheet. */
  offSheet: [236, 233, 226],
  /** Bare paper in a map of the inks. */
  barePaper: [250, 248, 243],
  /** More than the scale shows. */
  beyondScale: [178, 24, 43],
} as const satisfies Record<string, Rgb>;

/** Hatched, since neither is a value: one was measured and the other was not. */
export const HEAT_MAP_HATCHING = {
  /** Measured, but below what may be claimed there. */
  belowFloor: { ground: [244, 241, 234], line: [214, 208, 194], slant: "rising" },
  /** On the sheet and not measured. */
  notMeasured: { ground: [176, 170, 158], line: [112, 106, 96], slant: "falling" },
} as const satisfies Record<string, Hatching>;

/** sRGB colour of a difference on the scale, for the legend. */
export function heatMapColour(deltaE00: number): Rgb {
  if (deltaE00 > HEAT_MAP_MAX_DELTA_E00) return HEAT_MAP_COLOURS.beyondScale;
  const share = Math.max(0, deltaE00) / HEAT_MAP_MAX_DELTA_E00;
  return SCALE[Math.round(share * (STEPS - 1))];
}

/** What a map shows, row-major. */
export interface Mapped {
  readonly width: number;
  /** dE00 a cell; NaN = not measured. */
  readonly values: Float32Array;
  /** Smallest difference that may be claimed, a cell. */
  readonly floor: (cell: number) => number;
  /** Non-zero on the sheet. */
  readonly sheet: Uint8Array;
  /** Cells that the map does not speak of because they are bare paper. Default: none. */
  readonly bare?: ((cell: number) => boolean) | undefined;
}

/** A map of differences as RGB bytes. */
export function heatMap({ width, values, floor, sheet, bare }: Mapped): Uint8Array {
  const below = hatched(HEAT_MAP_HATCHING.belowFloor, width);
  const unknown = hatched(HEAT_MAP_HATCHING.notMeasured, width);
  const out = new Uint8Array(3 * values.length);
  for (let i = 0, x = 0, y = 0; i < values.length; i++) {
    const value = values[i];
    const colour =
      sheet[i] === 0
        ? HEAT_MAP_COLOURS.offSheet
        : bare?.(i) === true
          ? HEAT_MAP_COLOURS.barePaper
          : Number.isNaN(value)
            ? unknown(x, y)
            : value <= floor(i)
              ? below(x, y)
              : heatMapColour(value);
    out[3 * i] = colour[0];
    out[3 * i + 1] = colour[1];
    out[3 * i + 2] = colour[2];
    if (++x === width) {
      x = 0;
      y++;
    }
  }
  return out;
}
