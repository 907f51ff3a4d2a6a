import type { Point } from "../../numeric/point.ts";
import { FIDUCIAL_RINGS } from "../../../calibration/fiducial.ts";
import type { Raster } from "../../raster/raster.ts";
import { components } from "../../grid/components.ts";

/** Nested squares of a printed sheet, as seen. */
export interface NestedSquares {
  /** Pixels of the photo. */
  readonly centre: Point;
  /** Outer side, pixels of the photo. */
  readonly side: number;
  /** The origin's: its core has a hole. */
  readonly holed: boolean;
}

/** Long side about which squares are looked for; a 10 mm square of an A4 sheet is then 45 pixels and more. */
const WORKING_SIDE = 1600;

/** Dark is below this share of the mean grey around. */
const DARK_SHARE = 0.75;

/** The neighbourhood is this share of the long side: wider than a square, narrower than the sheet. */
const NEIGHBOURHOOD_SHARE = 0.08;

/** Smallest square, pixels of the working picture: its rings are then two pixels wide. */
const SMALLEST_SIDE = 14;

/** Shares of the outer square's area: the ring alone, the core, the hole. */
const RING_AREA = 1 - FIDUCIAL_RINGS.white ** 2;
const CORE_AREA = FIDUCIAL_RINGS.core ** 2;
const HOLE_AREA = FIDUCIAL_RINGS.hole ** 2;

/** How far ring and core may differ from print: centres by a share of the side, areas by a factor. */
const CENTRE_SHARE = 0.05;
const AREA_FACTOR = 1.6;

interface Blob {
  cells: number;
  x0: number;
  x1: number;
  y0: number;
  y1: number;
  sumX: number;
  sumY: number;
}

/**
 * Finds nested squares (black ring, white gap, black core) in a photo, upright or turned.
 * Dark pieces against their neighbourhood; a piece is a ring when a smaller piece of the right area sits in its middle.
 */
export function findNestedSquares(raster: Raster): NestedSquares[] {
  const { pixels, width, height, step } = reducedGreen(raster);
  const dark = darkPixels(pixels, width, height);
  const { piece, cells } = components(dark, width, height);
  const blobs = blobsOf(piece, cells.length, width, height);

  const found: NestedSquares[] = [];
  blobs.forEach((ring, number) => {
    const w = ring.x1 - ring.x0 + 1;
    const h = ring.y1 - ring.y0 + 1;
    const side = Math.sqrt(ring.cells / RING_AREA);
    // A square turned by up to 20 degrees fills its bounding box to 60 %.
    if (side < SMALLEST_SIDE || w > 1.45 * side || h > 1.45 * side) return;
    if (w < 0.75 * side || h < 0.75 * side || side * side > 0.02 * width * height) return;
    const core = coreOf(piece, blobs, number, ring, width);
    if (core === null) return;
    const coreShare = core.cells / (side * side);
    if (coreShare > CORE_AREA * AREA_FACTOR || coreShare < (CORE_AREA - HOLE_AREA) / AREA_FACTOR)
      return;
    const ringX = ring.sumX / ring.cells;
    const ringY = ring.sumY / ring.cells;
    const apart = Math.hypot(core.sumX / core.cells - ringX, core.sumY / core.cells - ringY);
    if (apart > CENTRE_SHARE * side + 0.5) return;
    const x = (ring.sumX + core.sumX) / (ring.cells + core.cells);
    const y = (ring.sumY + core.sumY) / (ring.cells + core.cells);
    found.push({
      centre: middleOfDarkness(
        raster,
        [(x + 0.5) * step - 0.5, (y + 0.5) * step - 0.5],
        side * step,
      ),
      side: side * step,
      holed: hasHole(pixels, width, x, y, side),
    });
  });
  return found;
}

interface ReducedGreen {
  readonly pixels: Float32Array;
  readonly width: number;
  readonly height: number;
  /** Full pixels a pixel: X = (x + 0.5) step - 0.5. */
  readonly step: number;
}

/** Mean green codes over squares of a whole number of pixels. */
function reducedGreen({ width: fullWidth, height: fullHeight, data }: Raster): ReducedGreen {
  const step = Math.max(1, Math.round(Math.max(fullWidth, fullHeight) / WORKING_SIDE));
  const width = Math.floor(fullWidth / step);
  const height = Math.floor(fullHeight / step);
  const pixels = new Float32Array(width * height);
  for (let y = 0; y < height * step; y++) {
    const row = Math.floor(y / step) * width;
    let at = 3 * y * fullWidth + 1;
    for (let x = 0; x < width; x++)
      for (let k = 0; k < step; k++, at += 3) pixels[row + x] += data[at];
  }
  return { pixels, width, height, step };
}

/** 1 where the green is well below the mean around it, by a table of sums. */
function darkPixels(pixels: Float32Array, width: number, height: number): Uint8Array {
  const sums = new Float64Array((width + 1) * (height + 1));
  for (let y = 0; y < height; y++) {
    let row = 0;
    for (let x = 0; x < width; x++) {
      row += pixels[y * width + x];
      sums[(y + 1) * (width + 1) + x + 1] = sums[y * (width + 1) + x + 1] + row;
    }
  }
  const reach = Math.ceil((NEIGHBOURHOOD_SHARE * Math.max(width, height)) / 2);
  const dark = new Uint8Array(width * height);
  for (let y = 0; y < height; y++) {
    const top = Math.max(0, y - reach) * (width + 1);
    const bottom = Math.min(height, y + reach + 1) * (width + 1);
    for (let x = 0; x < width; x++) {
      const left = Math.max(0, x - reach);
      const right = Math.min(width, x + reach + 1);
      const sum = sums[bottom + right] - sums[bottom + left] - sums[top + right] + sums[top + left];
      const count = ((bottom - top) / (width + 1)) * (right - left);
      if (pixels[y * width + x] * count < DARK_SHARE * sum) dark[y * width + x] = 1;
    }
  }
  return dark;
}

function blobsOf(piece: Int32Array, count: number, width: number, height: number): Blob[] {
  const blobs = Array.from({ length: count }, (): Blob => ({
    cells: 0,
    x0: width,
    x1: 0,
    y0: height,
    y1: 0,
    sumX: 0,
    sumY: 0,
  }));
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const number = piece[y * width + x];
      if (number < 0) continue;
      const blob = blobs[number];
      blob.cells++;
      blob.sumX += x;
      blob.sumY += y;
      if (x < blob.x0) blob.x0 = x;
      if (x > blob.x1) blob.x1 = x;
      if (y < blob.y0) blob.y0 = y;
      if (y > blob.y1) blob.y1 = y;
    }
  return blobs;
}

/** The largest other piece that a cross through the ring's middle meets inside the ring. */
function coreOf(
  piece: Int32Array,
  blobs: readonly Blob[],
  number: number,
  ring: Blob,
  width: number,
): Blob | null {
  const x = Math.round(ring.sumX / ring.cells);
  const y = Math.round(ring.sumY / ring.cells);
  let core: Blob | null = null;
  const look = (at: number): void => {
    const other = piece[at];
    if (other < 0 || other === number) return;
    const blob = blobs[other];
    const inside = blob.x0 > ring.x0 && blob.x1 < ring.x1 && blob.y0 > ring.y0 && blob.y1 < ring.y1;
    if (inside && (core === null || blob.cells > core.cells)) core = blob;
  };
  for (let i = ring.x0; i <= ring.x1; i++) look(y * width + i);
  for (let i = ring.y0; i <= ring.y1; i++) look(i * width + x);
  return core;
}

/** Whether the middle is lighter than half-way between core and gap. */
function hasHole(pixels: Float32Array, width: number, x: number, y: number, side: number): boolean {
  const at = (dx: number, dy: number): number =>
    pixels[Math.round(y + dy) * width + Math.round(x + dx)];
  const around = (share: number): number => {
    const r = share * side;
    return (at(r, 0) + at(-r, 0) + at(0, r) + at(0, -r)) / 4;
  };
  const core = around((FIDUCIAL_RINGS.core + FIDUCIAL_RINGS.hole) / 4);
  const gap = around((FIDUCIAL_RINGS.core + FIDUCIAL_RINGS.white) / 4);
  return at(0, 0) > (core + gap) / 2;
}

/** Half the window of the fine centre, as a share of the side: takes in a square turned by 20 degrees, and nothing beside it. */
const WINDOW_SHARE = 0.62;

/** Centre of a square at full size: mean place of its darkness, light print ground = 0, ink = 1. */
function middleOfDarkness(raster: Raster, [x, y]: Point, side: number): Point {
  const { width, height, data } = raster;
  const reach = WINDOW_SHARE * side;
  const x0 = Math.max(0, Math.round(x - reach));
  const x1 = Math.min(width - 1, Math.round(x + reach));
  const y0 = Math.max(0, Math.round(y - reach));
  const y1 = Math.min(height - 1, Math.round(y + reach));
  const codes: number[] = [];
  for (let row = y0; row <= y1; row++)
    for (let column = x0; column <= x1; column++) codes.push(data[3 * (row * width + column) + 1]);
  const sorted = codes.slice().sort((a, b) => a - b);
  const ink = sorted[Math.floor(0.1 * sorted.length)];
  const ground = sorted[Math.floor(0.9 * sorted.length)];
  if (!(ground > ink)) return [x, y];
  let sum = 0;
  let sumX = 0;
  let sumY = 0;
  codes.forEach((code, i) => {
    const dark = Math.min(1, Math.max(0, (ground - code) / (ground - ink)));
    sum += dark;
    sumX += dark * (x0 + (i % (x1 - x0 + 1)));
    sumY += dark * (y0 + Math.floor(i / (x1 - x0 + 1)));
  });
  return [sumX / sum, sumY / sum];
}
