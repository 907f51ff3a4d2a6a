import type { PlaneName, Quadrilateral, QuadrilateralSearch } from "./quadrilateral.ts";
import type { Point } from "../numeric/point.ts";
import type { Mat } from "./cv.ts";
import { cv } from "./cv.ts";
import { inScope, matFromBytes } from "./scope.ts";

/** Windows of the adaptive threshold, as shares of the long side: for small and for large patches. */
const WINDOWS = [0.03, 0.08];

/** Code steps by which a pixel must differ from its surroundings. */
const CONTRAST = 4;

/** Edge limits in code steps, on a plane stretched to full range. */
const CANNY_LOW = 25;
const CANNY_HIGH = 75;

/** Largest difference of code values inside a 3 x 3 window that counts as even. */
const EVEN = 10;

/** Tolerance of the polygon, as a share of the outline. */
const POLYGON_TOLERANCE = 0.06;

/** A shape that is no polygon of four corners counts when it fills its box this much. */
const FILLED = 0.82;

const SMALLEST_SIDE = 6;

/** No patch of a card that is wholly in frame takes more of the picture; the frame itself does. */
const LARGEST_SHARE = 1 / 8;

const LONGEST_TO_SHORTEST = 3.2;

/** Shapes count as one when their middles lie this close (in sides) and their areas differ by less than this factor. */
const SAME_PLACE = 0.12;
const SAME_AREA = 1.25;

/** Share of pixels cut off at both ends when a plane is stretched: linear files are dark. */
const STRETCH_TAIL = 0.005;

/** A plane of fewer code steps is stretched as if it had so many: the noise of an even picture stays noise. */
const SMALLEST_RANGE = 32;

/** The worker's half of `findQuadrilaterals`. */
export function findQuadrilaterals({ image, planes }: QuadrilateralSearch): Quadrilateral[] {
  const { pixels, width, height } = image;
  const found = new DistinctShapes(Math.max(width, height));
  for (const name of planes)
    inScope((scope) => {
      const source = matFromBytes(scope, planeOf(pixels, name), width, height);
      const smooth = scope.keep(new cv.Mat());
      cv.medianBlur(source, smooth, 3);
      const mask = scope.keep(new cv.Mat());
      for (const share of WINDOWS) {
        const window = 2 * Math.round((share * Math.max(width, height)) / 2) + 1;
        if (window < 3) continue;
        for (const [type, offset] of [
          [cv.THRESH_BINARY, -CONTRAST],
          [cv.THRESH_BINARY_INV, CONTRAST],
        ]) {
          cv.adaptiveThreshold(smooth, mask, 255, cv.ADAPTIVE_THRESH_MEAN_C, type, window, offset);
          collect(mask, found);
        }
      }
      const square = scope.keep(cv.getStructuringElement(cv.MORPH_RECT, { width: 3, height: 3 }));
      const high = scope.keep(new cv.Mat());
      const low = scope.keep(new cv.Mat());
      cv.Canny(smooth, high, CANNY_LOW, CANNY_HIGH);
      cv.dilate(high, mask, square);
      cv.bitwise_not(mask, mask);
      collect(mask, found);
      cv.dilate(smooth, high, square);
      cv.erode(smooth, low, square);
      mask.data.set(evenPlaces(high.data, low.data));
      collect(mask, found);
    });
  return found.shapes;
}

const CHANNEL: Record<PlaneName, number> = { grey: -1, red: 0, green: 1, blue: 2 };

/** One plane, stretched to the full range. */
function planeOf(pixels: Uint8Array, name: PlaneName): Uint8Array {
  const plane = new Uint8Array(pixels.length / 3);
  const channel = CHANNEL[name];
  // Grey by the luma weights of ITU-R BT.601: the patch colours of most cards then differ from black and from white.
  if (channel < 0)
    for (let i = 0, at = 0; i < plane.length; i++, at += 3)
      plane[i] = (299 * pixels[at] + 587 * pixels[at + 1] + 114 * pixels[at + 2] + 500) / 1000;
  else for (let i = 0, at = channel; i < plane.length; i++, at += 3) plane[i] = pixels[at];
  stretch(plane);
  return plane;
}

function stretch(plane: Uint8Array): void {
  const counts = new Float64Array(256);
  for (const code of plane) counts[code]++;
  const tail = STRETCH_TAIL * plane.length;
  let low = 0;
  let high = 255;
  for (let sum = counts[0]; sum < tail; sum += counts[++low]);
  for (let sum = counts[255]; sum < tail; sum += counts[--high]);
  high = Math.min(255, Math.max(high, low + SMALLEST_RANGE));
  low = Math.min(low, high - SMALLEST_RANGE);
  const table = Uint8ClampedArray.from({ length: 256 }, (_, code) => (255 * (code - low)) / (high - low)); // prettier-ignore
  for (let i = 0; i < plane.length; i++) plane[i] = table[plane[i]];
}

function evenPlaces(high: Uint8Array, low: Uint8Array): Uint8Array {
  const even = new Uint8Array(high.length);
  for (let i = 0; i < high.length; i++) even[i] = high[i] - low[i] <= EVEN ? 255 : 0;
  return even;
}

function collect(mask: Mat, found: DistinctShapes): void {
  const largest = LARGEST_SHARE * mask.rows * mask.cols;
  inScope((inner) => {
    const contours = inner.keep(new cv.MatVector());
    const hierarchy = inner.keep(new cv.Mat());
    const polygon = inner.keep(new cv.Mat());
    cv.findContours(mask, contours, hierarchy, cv.RETR_LIST, cv.CHAIN_APPROX_SIMPLE);
    const count = contours.size();
    for (let i = 0; i < count; i++) {
      const contour = contours.get(i);
      const shape = contour.rows < 4 ? null : fourSided(contour, polygon);
      contour.delete();
      if (shape !== null && shape.area <= largest) found.add(shape);
    }
  });
}

function fourSided(contour: Mat, polygon: Mat): Quadrilateral | null {
  const area = cv.contourArea(contour);
  if (area < SMALLEST_SIDE ** 2) return null;
  cv.approxPolyDP(contour, polygon, POLYGON_TOLERANCE * cv.arcLength(contour, true), true);
  if (polygon.rows === 4 && cv.isContourConvex(polygon)) {
    const xy = polygon.data32S;
    return quadrilateral([[xy[0], xy[1]], [xy[2], xy[3]], [xy[4], xy[5]], [xy[6], xy[7]]]); // prettier-ignore
  }
  const box = cv.minAreaRect(contour);
  if (area < FILLED * box.size.width * box.size.height) return null;
  const turn = (box.angle * Math.PI) / 180;
  const [ux, uy] = [(box.size.width / 2) * Math.cos(turn), (box.size.width / 2) * Math.sin(turn)];
  const [vx, vy] = [(-box.size.height / 2) * Math.sin(turn), (box.size.height / 2) * Math.cos(turn)]; // prettier-ignore
  const { x, y } = box.center;
  return quadrilateral([
    [x - ux - vx, y - uy - vy],
    [x + ux - vx, y + uy - vy],
    [x + ux + vx, y + uy + vy],
    [x - ux + vx, y - uy + vy],
  ]);
}

function quadrilateral(corners: readonly [Point, Point, Point, Point]): Quadrilateral | null {
  const [a, b, c, d] = corners;
  const p = [c[0] - a[0], c[1] - a[1]];
  const q = [d[0] - b[0], d[1] - b[1]];
  const cross = p[0] * q[1] - p[1] * q[0];
  const area = Math.abs(cross) / 2;
  const sides = corners.map(([x, y], i) =>
    Math.hypot(corners[(i + 1) % 4][0] - x, corners[(i + 1) % 4][1] - y),
  );
  const shortest = Math.min(...sides);
  if (area === 0 || shortest < SMALLEST_SIDE) return null;
  if (Math.max(...sides) > LONGEST_TO_SHORTEST * shortest) return null;
  const t = ((b[0] - a[0]) * q[1] - (b[1] - a[1]) * q[0]) / cross;
  return {
    corners: cross > 0 ? [a, b, c, d] : [d, c, b, a],
    centre: [a[0] + t * p[0], a[1] + t * p[1]],
    area,
    side: (sides[0] + sides[1] + sides[2] + sides[3]) / 4,
  };
}

/** Shapes kept once a place: a grid over the picture, so that each new one meets only its neighbours. */
class DistinctShapes {
  readonly shapes: Quadrilateral[] = [];
  readonly #cells = new Map<number, Quadrilateral[]>();
  readonly #columns: number;

  constructor(longSide: number) {
    this.#columns = Math.ceil(longSide / CELL) + 2;
  }

  add(shape: Quadrilateral): void {
    const [x, y] = shape.centre;
    const reach = SAME_PLACE * shape.side;
    for (let cy = Math.floor((y - reach) / CELL); cy <= Math.floor((y + reach) / CELL); cy++)
      for (let cx = Math.floor((x - reach) / CELL); cx <= Math.floor((x + reach) / CELL); cx++)
        for (const other of this.#cells.get(cy * this.#columns + cx) ?? [])
          if (
            Math.hypot(other.centre[0] - x, other.centre[1] - y) < reach &&
            other.area < SAME_AREA * shape.area &&
            shape.area < SAME_AREA * other.area
          )
            return;
    const cell = Math.floor(y / CELL) * this.#columns + Math.floor(x / CELL);
    const inCell = this.#cells.get(cell);
    if (inCell === undefined) this.#cells.set(cell, [shape]);
    else inCell.push(shape);
    this.shapes.push(shape);
  }
}

const CELL = 16;
