import type { Shape } from "./shapes.ts";

/** The four inks of the press, in the order of bits 1, 2, 4 and 8 of an overprint. */
export const INKS = ["yellow", "red", "blue", "black"] as const;
export type Ink = (typeof INKS)[number];

/** Distance of the lattice points on which plates are engraved. Fine lettering is 0.4 mm wide. */
export const LATTICE_MM = 0.1;

/**
 * The printing plates of a cover before screening, on a lattice of {@link LATTICE_MM}; point (column, row) lies at
 * ((column + 0.5) * LATTICE_MM, (row + 0.5) * LATTICE_MM) of the sheet.
 */
export interface Plates {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly columns: number;
  readonly rows: number;
  /** Line work and solids of each ink, 0..255; edges lie where it passes 127.5. */
  readonly line: readonly Uint8Array[];
  /** Tints and pictures of each ink, 0..255 = coverage 0..1; they are screened. */
  readonly tone: readonly Uint8Array[];
  /** What was painted last: label of the region, 0 where no single colour (pictures, gradients, thin lines). */
  readonly label: Uint8Array;
}

/** The label of unprinted paper. */
export const PAPER_LABEL = 255;

export function blankPlates(widthMm: number, heightMm: number): Plates {
  const columns = Math.ceil(widthMm / LATTICE_MM);
  const rows = Math.ceil(heightMm / LATTICE_MM);
  const plane = (): Uint8Array => new Uint8Array(columns * rows);
  return {
    widthMm,
    heightMm,
    columns,
    rows,
    line: INKS.map(plane),
    tone: INKS.map(plane),
    label: new Uint8Array(columns * rows).fill(PAPER_LABEL),
  };
}

/** Coverage of each ink; an ink that is left out keeps what was printed before (an overprint), 0 knocks it out. */
export type Coverage = { readonly [ink in Ink]?: number };

/** A flat coverage, or a picture: the coverage at each point in mm. */
export type Paint = Coverage | ((x: number, y: number) => Coverage);

/** Lattice points along one side of the blocks that are judged as a whole. */
const BLOCK = 16;

/**
 * Paints a shape over what is there. Coverage 1 goes to the line plate, anything between 0 and 1 is screened.
 * @param label Region label, default 0 (no region).
 */
export function paint(plates: Plates, shape: Shape, paintOf: Paint, label = 0): void {
  const { columns, rows } = plates;
  const [left, top, right, bottom] = shape.box;
  const firstColumn = Math.max(0, Math.floor(left / LATTICE_MM) - 1);
  const lastColumn = Math.min(columns - 1, Math.ceil(right / LATTICE_MM) + 1);
  const firstRow = Math.max(0, Math.floor(top / LATTICE_MM) - 1);
  const lastRow = Math.min(rows - 1, Math.ceil(bottom / LATTICE_MM) + 1);
  const flat = typeof paintOf === "function" ? null : paintOf;
  const picture = typeof paintOf === "function" ? paintOf : null;
  const put = (at: number, coverage: Coverage, m: number): void => {
    for (let ink = 0; ink < 4; ink++) {
      const value = coverage[INKS[ink]];
      if (value === undefined) continue;
      const solid = value >= 1;
      const line = plates.line[ink];
      const tone = plates.tone[ink];
      line[at] = Math.round(line[at] + m * ((solid ? 255 : 0) - line[at]));
      tone[at] = Math.round(tone[at] + m * ((solid ? 0 : 255 * Math.max(0, value)) - tone[at]));
    }
    if (m > 0.5) plates.label[at] = label;
  };
  // A distance changes by no more than the way gone, so one look at the middle of a block can settle all of it.
  const settled = (BLOCK * Math.SQRT1_2 + 1) * LATTICE_MM;
  for (let blockRow = firstRow; blockRow <= lastRow; blockRow += BLOCK)
    for (let blockColumn = firstColumn; blockColumn <= lastColumn; blockColumn += BLOCK) {
      const middle = shape.distance(
        (blockColumn + BLOCK / 2) * LATTICE_MM,
        (blockRow + BLOCK / 2) * LATTICE_MM,
      );
      if (middle > settled) continue;
      const whole = middle < -settled;
      for (let row = blockRow; row < blockRow + BLOCK && row <= lastRow; row++) {
        const y = (row + 0.5) * LATTICE_MM;
        for (
          let column = blockColumn;
          column < blockColumn + BLOCK && column <= lastColumn;
          column++
        ) {
          const x = (column + 0.5) * LATTICE_MM;
          const m = whole ? 1 : Math.min(1, 0.5 - shape.distance(x, y) / LATTICE_MM);
          if (m > 0) put(row * columns + column, flat ?? picture?.(x, y) ?? {}, m);
        }
      }
    }
}
