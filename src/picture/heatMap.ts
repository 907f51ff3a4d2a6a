import chroma from "chroma-js";

/** The scale never moves, so that two reports can be laid side by side. */
export const HEAT_MAP_MAX_DELTA_E00 = 10;

const STEPS = 256;

type Rgb = readonly [number, number, number];

/** Perceptually even and safe for colour-blind readers; 0 at its dark end. */
const VIRIDIS = chroma.scale("Viridis");

/** One colour a step of the scale. */
const SCALE: readonly Rgb[] = Array.from({ length: STEPS }, (_, i) => {
  const [r, g, b] = VIRIDIS(i / (STEPS - 1)).rgb();
  return [r, g, b] as const;
});

/** Colours that are not on the scale, so that they can't be read as a value. */
export const HEAT_MAP_COLOURS = {
  /** Off the sheet, masked, not measured. */
  noData: [205, 201, 192],
  /** Measured, but below what may be claimed there. */
  belowFloor: [244, 241, 234],
  /** More than the scale shows. */
  beyondScale: [178, 24, 43],
} as const satisfies Record<string, Rgb>;

/** CSS colour of a difference on the scale, for the legend. */
export function heatMapCss(deltaE00: number): string {
  const [r, g, b] = colourOf(deltaE00);
  return `rgb(${String(r)} ${String(g)} ${String(b)})`;
}

function colourOf(deltaE00: number): Rgb {
  if (deltaE00 > HEAT_MAP_MAX_DELTA_E00) return HEAT_MAP_COLOURS.beyondScale;
  return SCALE[Math.round((deltaE00 / HEAT_MAP_MAX_DELTA_E00) * (STEPS - 1))];
}

/**
 * The difference map as RGB bytes.
 * @param difference dE00 a cell; NaN = no data.
 * @param floor Smallest difference that may be claimed, a cell.
 */
export function heatMap(difference: Float32Array, floor: (cell: number) => number): Uint8Array {
  const out = new Uint8Array(3 * difference.length);
  for (let i = 0; i < difference.length; i++) {
    const value = difference[i];
    const colour = Number.isNaN(value)
      ? HEAT_MAP_COLOURS.noData
      : value <= floor(i)
        ? HEAT_MAP_COLOURS.belowFloor
        : colourOf(value);
    out[3 * i] = colour[0];
    out[3 * i + 1] = colour[1];
    out[3 * i + 2] = colour[2];
  }
  return out;
}
