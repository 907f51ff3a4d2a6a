import type { Correction } from "../calibrate/correction.ts";
import { labOfMean } from "../calibrate/labOfMean.ts";
import { LastrinseError } from "../errors.ts";
import { meanOverCells } from "../grid/meanOverCells.ts";
import type { Planes } from "../grid/planes.ts";
import type { PlateInk } from "../plates/plates.ts";
import { USUAL_INKS } from "../plates/separatePlates.ts";

/** A place of the before scan, in full pixels, that is an ink's solid. */
export interface SolidPlace {
  readonly name: string;
  readonly x: number;
  readonly y: number;
}

/** How far round the place its colour is taken. */
const RADIUS_MM = 0.75;

/**
 * The usual inks, with the solids that the user picked.
 * @param sheet 1 on the sheet, one a cell of the planes.
 * @throws {LastrinseError} wrong-use: another name, a name given twice, a place beside the sheet.
 */
export function pickedInks(
  places: readonly SolidPlace[],
  planes: Planes,
  sheet: Uint8Array,
  correction: Correction,
  mmPerCell: number,
): readonly PlateInk[] {
  for (const [i, { name }] of places.entries()) {
    const names = USUAL_INKS.map(({ id }) => id);
    if (!names.includes(name) || places.findIndex((place) => place.name === name) !== i)
      throw new LastrinseError(
        "wrong-use",
        `Expected --solid with one of ${names.join(", ")}, each once, received ${name}.`,
        { remedy: "Name the printing ink whose solid lies there.", input: "--solid" },
      );
  }
  return USUAL_INKS.map((ink) => {
    const place = places.find(({ name }) => name === ink.id);
    return place === undefined
      ? ink
      : { ...ink, picked: labAround(place, planes, sheet, correction, mmPerCell) };
  });
}

function labAround(
  { name, x, y }: SolidPlace,
  planes: Planes,
  sheet: Uint8Array,
  correction: Correction,
  mmPerCell: number,
) {
  const { width, height, stepX, stepY } = planes;
  const [column, row] = [(x + 0.5) / stepX - 0.5, (y + 0.5) / stepY - 0.5];
  // A place between cells always has one within this reach.
  const reach = Math.max(1, RADIUS_MM / mmPerCell);
  const cells: number[] = [];
  for (let r = Math.max(0, Math.ceil(row - reach)); r <= Math.min(height - 1, row + reach); r++)
    for (
      let c = Math.max(0, Math.ceil(column - reach));
      c <= Math.min(width - 1, column + reach);
      c++
    )
      // prettier-ignore
      if (sheet[r * width + c] !== 0 && Math.hypot(r - row, c - column) <= reach)
        cells.push(r * width + c);
  if (cells.length === 0)
    throw new LastrinseError(
      "wrong-use",
      `Expected the solid of ${name} on the sheet; ${x},${y} lies beside it.`,
      { remedy: "Give a place of the before scan in pixels, from its top left.", input: "--solid" },
    );
  return labOfMean(correction, meanOverCells(planes, Int32Array.from(cells)));
}
