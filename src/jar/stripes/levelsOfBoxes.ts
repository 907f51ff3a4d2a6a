import { LastrinseError } from "../../errors.ts";
import type { StripeGrid } from "./findStripes.ts";
import type { LightBox } from "../optics/lightBox.ts";
import type { StripeBoxes } from "./stripeBoxes.ts";
import { type StripeLevels, stripeLevels } from "./stripeLevels.ts";
import type { StripeReading } from "./stripeReading.ts";

/**
 * Reads the stripes of all boxes of a photo once their place is known.
 * @param file Named in messages.
 * @throws {LastrinseError} `station-not-found` where a box is too small for its stripes.
 */
export function levelsOfBoxes(
  file: string,
  boxes: StripeBoxes,
  grids: Pick<StripeReading, "leftGrid" | "rightGrid" | "wideGrid" | "narrowGrid">,
): StripeReading {
  const levels = (box: LightBox, grid: StripeGrid): StripeLevels => {
    const read = stripeLevels(box, grid);
    if (read === null)
      throw new LastrinseError(
        "station-not-found",
        `Expected white and black stripes in every column of a box in ${file}, received a box too small for them.`,
        {
          remedy: "Fill the jar higher, or photograph it larger.",
          input: file,
        },
      );
    return read;
  };
  const { wide, narrow } = boxes;
  const half = Math.floor(wide.height / 2);
  const halves =
    half >= grids.wideGrid.period
      ? [rowsOf(wide, 0, half), rowsOf(wide, wide.height - half, half)]
      : null;
  return {
    ...grids,
    left: levels(boxes.left, grids.leftGrid),
    right: levels(boxes.right, grids.rightGrid),
    wide: levels(wide, grids.wideGrid),
    wideHalves: halves && [levels(halves[0], grids.wideGrid), levels(halves[1], grids.wideGrid)],
    narrow: narrow && grids.narrowGrid && stripeLevels(narrow, grids.narrowGrid),
  };
}

function rowsOf(box: LightBox, from: number, height: number): LightBox {
  const cut = (plane: Float32Array): Float32Array =>
    plane.subarray(from * box.width, (from + height) * box.width);
  const [r, g, b] = box.light;
  return { ...box, y: box.y + from, height, light: [cut(r), cut(g), cut(b)] };
}
