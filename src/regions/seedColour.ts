import type { Triple } from "../numeric/triple.ts";
import { LastrinseError } from "../errors.ts";
import type { Sheet } from "./findSheet.ts";
import type { LabImage } from "../grid/labImage.ts";

/** Half the side of the square over which the colour is taken. */
const SEED_MM = 0.5;

/**
 * Mean colour of the sheet around a place given by the user.
 * @param image In whose space the colour is wanted.
 * @param file Where the place was given, for messages.
 * @throws {LastrinseError} `wrong-use`: the place is not on the sheet.
 */
export function seedColour(
  image: LabImage,
  sheet: Sheet,
  [X, Y]: readonly [number, number],
  file: string,
): Triple {
  const { width, height, mmPerCell, stepX, stepY } = image;
  const x = Math.round((X + 0.5) / stepX - 0.5);
  const y = Math.round((Y + 0.5) / stepY - 0.5);
  const reach = Math.max(1, Math.round(SEED_MM / mmPerCell));
  let n = 0;
  const sum = [0, 0, 0];
  for (let v = Math.max(0, y - reach); v <= Math.min(height - 1, y + reach); v++)
    for (let u = Math.max(0, x - reach); u <= Math.min(width - 1, x + reach); u++) {
      const i = v * width + u;
      if (sheet.mask[i] === 0) continue;
      n++;
      sum[0] += image.L[i];
      sum[1] += image.a[i];
      sum[2] += image.b[i];
    }
  if (n === 0)
    throw new LastrinseError(
      "wrong-use",
      `Expected the seed of a split on the sheet, for ${file}, received ${X}, ${Y}.`,
      {
        remedy: `Give x, y in pixels of the before scan, inside ${boxText(sheet, image)}.`,
        input: file,
      },
    );
  return [sum[0] / n, sum[1] / n, sum[2] / n];
}

function boxText(sheet: Sheet, { stepX, stepY }: LabImage): string {
  if (sheet.box === null) return "the sheet";
  const [x, y, w, h] = sheet.box;
  const corner = (u: number, v: number): string =>
    `${Math.round(u * stepX)}, ${Math.round(v * stepY)}`;
  return `${corner(x, y)} to ${corner(x + w, y + h)}`;
}
