import type { Box } from "../grid/box.ts";
import type { LabImage } from "../grid/labImage.ts";
import { LastrinseError } from "../errors.ts";
import { standardDeviation } from "../numeric/statistics.ts";
import type { Triple } from "../numeric/triple.ts";
import type { SoughtPaper } from "./seekPaper.ts";

/** Bare paper that is known from outside the art: a patch of the scan or a colour given by the user, or the inside face's. */
export type KnownPaper =
  | { readonly source: "given"; readonly boxPixels: Box }
  | { readonly source: "given"; readonly lab: Triple }
  | {
      readonly source: "inside-face";
      readonly lab: Triple;
      /** Of that face's own survey. */
      readonly sigmaDeltaE00: number;
    };

/** A colour read off elsewhere is this far from this paper, by judgement; a patch in the scan is as even as its cells. */
const GIVEN_LAB_SIGMA = 1;
const LEAST_PATCH_SIGMA = 0.3;
/** Faces of one sheet aged apart. */
const OTHER_FACE_SIGMA = 1;
/** Fewer cells of the sheet under a patch show no colour. */
const FEWEST_CELLS = 9;

/**
 * The paper's colour from what is known.
 * @param image Low-passed. @param mask 1 on the sheet.
 * @returns Its cells, too, where a patch was given.
 * @throws {LastrinseError} `wrong-use`: the patch is not on the sheet.
 */
export function paperOfKnown(
  known: KnownPaper,
  image: LabImage,
  mask: Uint8Array,
): SoughtPaper & { readonly lab: Triple; readonly cells: readonly number[] } {
  if (known.source === "inside-face")
    return {
      source: "inside-face",
      lab: known.lab,
      sigmaDeltaE00: Math.hypot(OTHER_FACE_SIGMA, known.sigmaDeltaE00),
      cells: [],
    };
  if ("lab" in known)
    return { source: "given", lab: known.lab, sigmaDeltaE00: GIVEN_LAB_SIGMA, cells: [] };
  const cells = cellsOfBox(known.boxPixels, image).filter((i) => mask[i] === 1);
  if (cells.length < FEWEST_CELLS)
    throw new LastrinseError(
      "wrong-use",
      `Expected a patch of bare paper on the sheet, received ${known.boxPixels.join(",")}, where hardly any of the sheet lies.`,
      {
        remedy: "Give x,y,w,h in pixels of the before scan, over a bare place of the cover.",
        input: "--paper",
      },
    );
  const planes = [image.L, image.a, image.b].map((plane) => cells.map((i) => plane[i]));
  const [L, a, b] = planes.map((values) => values.reduce((sum, v) => sum + v, 0) / values.length);
  const scatter = Math.hypot(...planes.map((values) => standardDeviation(values))) / Math.sqrt(3);
  return {
    source: "given",
    lab: [L, a, b],
    sigmaDeltaE00: Math.max(LEAST_PATCH_SIGMA, scatter),
    cells,
  };
}

function cellsOfBox([X, Y, W, H]: Box, { width, height, stepX, stepY }: LabImage): number[] {
  const first = (start: number, step: number): number =>
    Math.max(0, Math.ceil((start + 0.5) / step - 0.5));
  const last = (end: number, step: number, count: number): number =>
    Math.min(count - 1, Math.floor((end + 0.5) / step - 0.5));
  const cells: number[] = [];
  for (let y = first(Y, stepY); y <= last(Y + H - 1, stepY, height); y++)
    for (let x = first(X, stepX); x <= last(X + W - 1, stepX, width); x++)
      cells.push(y * width + x);
  return cells;
}
