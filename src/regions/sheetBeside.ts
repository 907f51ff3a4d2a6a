import type { LabImage } from "../grid/labImage.ts";
import { complement } from "../grid/complement.ts";
import { components } from "../grid/components.ts";
import { farFrom } from "../grid/farFrom.ts";
import { fillPolygon } from "../grid/fillPolygon.ts";
import { largestPiece } from "../grid/largestPiece.ts";

/** Threads, dust and rulers at the sheet's rim are cut off by an opening of this radius. */
const OPENING_MM = 1.5;
/** A sheet takes at least this part of the frame (its card left out). */
const LEAST_SHEET_SHARE = 0.08;
/** A sheet is convex but for tears and losses: parts of sheet area and of bed area in the sheet's convex hull. */
const LEAST_SOLIDITY = 0.85;
const MOST_BED_INSIDE = 0.3;

/** The largest object beside the bed, opened and without holes; null when it can't be a sheet. */
export function sheetBeside(
  bed: Uint8Array,
  valid: Uint8Array,
  image: LabImage,
): Uint8Array | null {
  const { width, height, mmPerCell } = image;
  const size = width * height;
  let validCells = 0;
  let bedCells = 0;
  const nothing = new Uint8Array(size);
  for (let i = 0; i < size; i++) {
    validCells += valid[i];
    bedCells += bed[i];
    nothing[i] = valid[i] === 1 && bed[i] === 0 ? 0 : 1;
  }
  if (bedCells === 0) return null;
  const radius = OPENING_MM / mmPerCell;
  const core = farFrom(nothing, width, height, radius);
  const away = farFrom(core, width, height, radius);
  const opened = new Uint8Array(size);
  for (let i = 0; i < size; i++) opened[i] = away[i] === 0 && nothing[i] === 0 ? 1 : 0;
  const sheet = largestPiece(opened, width, height);
  if (sheet === null) return null;
  fillHoles(sheet, valid, width, height);

  const hull = convexHull(sheet, width, height);
  let sheetCells = 0;
  let hullCells = 0;
  let bedInside = 0;
  for (let i = 0; i < size; i++) {
    sheetCells += sheet[i];
    if (hull[i] === 0 || valid[i] === 0) continue;
    hullCells++;
    bedInside += bed[i];
  }
  const plausible =
    sheetCells >= LEAST_SHEET_SHARE * validCells &&
    sheetCells >= LEAST_SOLIDITY * hullCells &&
    bedInside <= MOST_BED_INSIDE * bedCells;
  return plausible ? sheet : null;
}

/** Fills what is enclosed by the mask, in place; cells that are not valid stay out. */
function fillHoles(mask: Uint8Array, valid: Uint8Array, width: number, height: number): void {
  const { piece, cells } = components(complement(mask), width, height);
  const open = new Uint8Array(cells.length);
  const touch = (i: number): void => {
    if (piece[i] >= 0) open[piece[i]] = 1;
  };
  for (let x = 0; x < width; x++) {
    touch(x);
    touch((height - 1) * width + x);
  }
  for (let y = 0; y < height; y++) {
    touch(y * width);
    touch(y * width + width - 1);
  }
  for (let i = 0; i < mask.length; i++)
    if (piece[i] >= 0 && open[piece[i]] === 0 && valid[i] === 1) mask[i] = 1;
}

/** Cells inside the convex hull of a mask (Andrew's monotone chain over the ends of the rows). */
function convexHull(mask: Uint8Array, width: number, height: number): Uint8Array {
  const points: [number, number][] = [];
  for (let y = 0; y < height; y++) {
    const first = mask.subarray(y * width, (y + 1) * width).indexOf(1);
    if (first < 0) continue;
    points.push([first, y], [mask.subarray(y * width, (y + 1) * width).lastIndexOf(1), y]);
  }
  points.sort((p, q) => p[0] - q[0] || p[1] - q[1]);
  const chain = (ordered: readonly [number, number][]): [number, number][] => {
    const hull: [number, number][] = [];
    for (const [x, y] of ordered) {
      while (hull.length >= 2) {
        const [ax, ay] = hull[hull.length - 2];
        const [bx, by] = hull[hull.length - 1];
        if ((bx - ax) * (y - ay) - (by - ay) * (x - ax) > 0) break;
        hull.pop();
      }
      hull.push([x, y]);
    }
    return hull.slice(0, -1);
  };
  const corners = [...chain(points), ...chain([...points].reverse())];
  const hull = mask.slice();
  fillPolygon(hull, { width, height, stepX: 1, stepY: 1 }, corners, 1);
  return hull;
}
