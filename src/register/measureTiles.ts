import { correlationPeak } from "./correlationPeak.ts";
import { tileCorrelator } from "./correlateTile.ts";
import { clearOf } from "../grid/hole.ts";
import { displacementAt } from "./nodeField.ts";
import type { Pass } from "./passes.ts";
import type { SheetMap } from "./sheetMap.ts";
import { NO_STRUCTURE, STRUCTURE_STEPS, type StructureImage } from "./structureImage.ts";
import { bandWarper } from "./warpBand.ts";

/** A window whose structure has a smaller standard deviation holds nothing to hold on to. */
const LEAST_DEVIATION = 0.25;

/** A window may reach over the edge of the sheet or of a frame, as long as this share of it can be compared. */
const LEAST_COVER = 0.6;

/** What one pass saw at each node; all row-major as the node field. */
export interface TileMeasurements {
  /** 1 where the window holds structure and both frames show it. */
  readonly possible: Uint8Array;
  /** Variance of the structure in the window, in squared standard scores; 0 where not possible. */
  readonly structure: Float64Array;
  /** Correlation at the peak; 0 where there is none inside the search range. */
  readonly ncc: Float64Array;
  /** The displacement that the tile asks for, mm; the current one where nothing was measured. */
  readonly dx: Float64Array;
  readonly dy: Float64Array;
  /** Information matrix [[xx, xy], [xy, yy]]; 0 below the least correlation. */
  readonly xx: Float64Array;
  readonly xy: Float64Array;
  readonly yy: Float64Array;
  /** Length of the correction to the current map, mm; NaN where nothing was measured. */
  readonly step: Float64Array;
}

/**
 * One pass: at each node, the shift of a window of the before structure that best fits the after structure, which is brought
 * over through the current map.
 * @param active 1 for nodes that lie on the sheet.
 */
export function measureTiles(
  before: StructureImage,
  after: StructureImage,
  map: SheetMap,
  active: Uint8Array,
  pass: Pass,
): TileMeasurements {
  const { field } = map;
  const nodes = field.width * field.height;
  const result: TileMeasurements = {
    possible: new Uint8Array(nodes),
    structure: new Float64Array(nodes),
    ncc: new Float64Array(nodes),
    dx: field.dx.slice(),
    dy: field.dy.slice(),
    xx: new Float64Array(nodes),
    xy: new Float64Array(nodes),
    yy: new Float64Array(nodes),
    step: new Float64Array(nodes).fill(NaN),
  };
  const half = Math.floor(Math.round(pass.windowMm / before.pitchX) / 2);
  const reach = pass.reachPixels;
  const apron = half + reach;
  const side = 2 * half + 1;
  const blockSide = 2 * apron + 1;
  const tile = tileCorrelator(side, reach);
  const pixelColumn = (c: number): number =>
    Math.round((field.left + c * field.mmPerCell - before.left) / before.pitchX - 0.5);
  const pixelRow = (r: number): number =>
    Math.round((field.top + r * field.mmPerCell - before.top) / before.pitchY - 0.5);
  const firstColumn = pixelColumn(0) - apron;
  const bandWidth = pixelColumn(field.width - 1) + apron + 1 - firstColumn;
  const warp = bandWarper(after, map, before, { first: firstColumn, count: bandWidth });
  const band = new Float64Array(bandWidth * blockSide);
  const hidden = new Uint8Array(bandWidth);
  const here = new Float64Array(2);
  const there = new Float64Array(2);

  for (let r = 0; r < field.height; r++) {
    const cy = pixelRow(r);
    const nodesInRow = active.subarray(r * field.width, (r + 1) * field.width);
    if (!nodesInRow.includes(1)) continue;
    warp(cy - apron, blockSide, band, hidden);
    for (let c = 0; c < field.width; c++) {
      if (nodesInRow[c] === 0) continue;
      const cx = pixelColumn(c);
      const bandColumn = cx - apron - firstColumn;
      const whole =
        clearOf(before.hole, cx - half, cx + half, cy - half, cy + half) &&
        cx >= half &&
        cy >= half &&
        cx + half < before.width &&
        cy + half < before.height &&
        !hidden.subarray(bandColumn, bandColumn + blockSide).includes(1);
      const cover = whole ? fillWhole(cx, cy, bandColumn) : fillShown(cx, cy, bandColumn);
      if (cover < LEAST_COVER * side * side) continue;
      const structure = variance(cover) / STRUCTURE_STEPS ** 2;
      if (structure < LEAST_DEVIATION ** 2) continue;
      const node = r * field.width + c;
      result.possible[node] = 1;
      result.structure[node] = structure;
      if (cover === side * side) tile.correlate();
      else tile.correlateMasked();
      const peak = correlationPeak(tile.surface, reach);
      if (peak === null) continue;
      result.ncc[node] = peak.ncc;
      const x = before.left + (cx + 0.5) * before.pitchX;
      const y = before.top + (cy + 0.5) * before.pitchY;
      const ux = peak.x * before.pitchX;
      const uy = peak.y * before.pitchY;
      // before(p) looks like after(map(p + u)): the new displacement at p is u + d(p + u).
      displacementAt(field, x, y, here);
      displacementAt(field, x + ux, y + uy, there);
      const stepX = ux + there[0] - here[0];
      const stepY = uy + there[1] - here[1];
      result.dx[node] += stepX;
      result.dy[node] += stepY;
      result.step[node] = Math.hypot(stepX, stepY);
      if (peak.ncc < pass.leastNcc) continue;
      result.xx[node] = peak.xx;
      result.xy[node] = peak.xy;
      result.yy[node] = peak.yy;
    }
  }
  return result;

  /** Fills window and block where all of both is shown. */
  function fillWhole(cx: number, cy: number, bandColumn: number): number {
    const { window, counts, block } = tile;
    counts.fill(1);
    for (let y = 0, w = 0; y < side; y++) {
      const from = (cy - half + y) * before.width + cx - half;
      for (let x = 0; x < side; x++, w++) window[w] = before.values[from + x];
    }
    for (let y = 0, b = 0; y < blockSide; y++) {
      const from = y * bandWidth + bandColumn;
      for (let x = 0; x < blockSide; x++, b++) block[b] = band[from + x];
    }
    return window.length;
  }

  /** Fills window, counts and block; returns how many samples of the window can be compared at every shift. */
  function fillShown(cx: number, cy: number, bandColumn: number): number {
    const { window, counts, block } = tile;
    let cover = 0;
    for (let y = 0, w = 0; y < side; y++) {
      const row = cy - half + y;
      const inRows = row >= 0 && row < before.height;
      for (let x = 0; x < side; x++, w++) {
        const column = cx - half + x;
        const value =
          inRows && column >= 0 && column < before.width
            ? before.values[row * before.width + column]
            : NO_STRUCTURE;
        const counted = value !== NO_STRUCTURE;
        counts[w] = counted ? 1 : 0;
        window[w] = counted ? value : 0;
        if (counted) cover++;
      }
    }
    for (let y = 0, b = 0; y < blockSide; y++) {
      const from = y * bandWidth + bandColumn;
      for (let x = 0; x < blockSide; x++, b++) {
        const value = band[from + x];
        if (!Number.isNaN(value)) {
          block[b] = value;
          continue;
        }
        block[b] = 0;
        // A sample the after frame doesn't show takes out each sample of the window that some shift would lay on it.
        for (let wy = Math.max(0, y - 2 * reach); wy <= Math.min(side - 1, y); wy++)
          for (let wx = Math.max(0, x - 2 * reach); wx <= Math.min(side - 1, x); wx++) {
            cover -= counts[wy * side + wx];
            counts[wy * side + wx] = 0;
          }
      }
    }
    return cover;
  }

  function variance(cover: number): number {
    const { window, counts } = tile;
    let sum = 0;
    let square = 0;
    for (let i = 0; i < window.length; i++) {
      if (counts[i] === 0) continue;
      sum += window[i];
      square += window[i] * window[i];
    }
    return Math.max(0, square / cover - (sum / cover) ** 2);
  }
}
