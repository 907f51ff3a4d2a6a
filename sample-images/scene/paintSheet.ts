import { BLOCK } from "./flatBlocks.ts";
import type { FlatBlocks } from "./flatBlocks.ts";
import type { FrameSize, RowPainter } from "./frame.ts";
import { framePixels } from "./frame.ts";
import { OUTLINE_DEPTH_MM } from "./outline.ts";
import { CONDITION_MM } from "./paperConditions.ts";
import type { PaperConditions } from "./paperConditions.ts";
import type { SheetMap } from "./placement.ts";
import { LATTICE_MM } from "./plates.ts";
import type { Plates } from "./plates.ts";
import type { Observer } from "./scanner.ts";
import { SCREENS, THRESHOLDS, TILE, softLevel } from "./screen.ts";
import { NOISE_STEP_MM, textureAt } from "./texture.ts";
import type { Texture } from "./texture.ts";

/** A sheet as it lies in a frame. */
export interface LaidSheet {
  readonly plates: Plates;
  readonly blocks: FlatBlocks;
  readonly conditions: PaperConditions;
  /** Reflectances by condition and overprint. */
  readonly primaries: readonly (readonly (readonly number[])[])[];
  readonly outline: (x: number, y: number) => number;
  readonly map: SheetMap;
  readonly texture: Texture;
  /** Depth of the paper's grain and of the ink's mottle: shares, 0 for none. */
  readonly grain: number;
  readonly mottle: number;
}

/** Share of a solid that takes ink: letterpress leaves pinholes. Its mottle never fills them all. */
export const SOLID_COVERAGE = 0.95;
/** Subsamples of a pixel lie no further apart than this, a sixth of a screen period. */
const SUBSAMPLE_MM = 0.06;
/** The map is tabulated at this distance; between, a straight line is right to 0.001 mm for waves of 55 mm and 1.5 mm. */
const MAP_STEP_MM = 0.5;
const LEVELS = 4096;
/** Keeps coordinates positive so that truncation is the floor. */
const POSITIVE_MM = 1000;

/** Flattens [condition][overprint] reflectances to what an observer sees. */
function observed(primaries: LaidSheet["primaries"], observer: Observer): Float64Array {
  return Float64Array.from(primaries.flatMap((row) => row.flatMap((R) => [...observer(R)])));
}

/** Paints the sheet over the bed, one row of pixels at a time. */
export function paintSheet(frame: FrameSize, sheet: LaidSheet, observer: Observer): RowPainter {
  const { plates, blocks, conditions, outline, map, texture, grain, mottle } = sheet;
  const [width] = framePixels(frame);
  const pixelMm = 25.4 / frame.dpi;
  const n = Math.max(1, Math.ceil(pixelMm / SUBSAMPLE_MM));
  const subMm = pixelMm / n;
  const primaries = observed(sheet.primaries, observer);
  const conditionCount = sheet.primaries.length;

  const nodeColumns = Math.ceil(frame.widthMm / MAP_STEP_MM) + 2;
  const nodeRows = Math.ceil(frame.heightMm / MAP_STEP_MM) + 2;
  const nodes = new Float64Array(2 * nodeColumns * nodeRows);
  for (let r = 0; r < nodeRows; r++)
    for (let c = 0; c < nodeColumns; c++) {
      const [x, y] = map.toSheet(c * MAP_STEP_MM, r * MAP_STEP_MM);
      nodes[2 * (r * nodeColumns + c)] = x;
      nodes[2 * (r * nodeColumns + c) + 1] = y;
    }

  const screens = SCREENS.map(({ linesPerInch, angleDegrees }) => {
    const perMm = (TILE * linesPerInch) / 25.4;
    const angle = (angleDegrees * Math.PI) / 180;
    const softness = Math.min(1, (2 * subMm * linesPerInch) / 25.4);
    return {
      c: perMm * Math.cos(angle),
      s: perMm * Math.sin(angle),
      softness,
      levels: Float32Array.from({ length: LEVELS + 1 }, (_, i) => softLevel(i / LEVELS, softness)),
    };
  });
  const crisp = Math.max(1, LATTICE_MM / subMm) / 255;
  const cover = new Float64Array(4);
  const lines = new Float64Array(4);
  const tones = new Float64Array(4);
  const spread = new Float64Array(4);
  const acc = new Float64Array(16);

  const screened = (ink: number, x: number, y: number): number => {
    const screen = screens[ink];
    const c = Math.min(1, (tones[ink] / 255) * (1 + mottle * spread[ink]));
    const u = (x * screen.c + y * screen.s + 64 * TILE * POSITIVE_MM) & (TILE - 1);
    const v = (y * screen.c - x * screen.s + 64 * TILE * POSITIVE_MM) & (TILE - 1);
    const share =
      (screen.levels[(c * LEVELS) | 0] - THRESHOLDS[v * TILE + u]) / screen.softness + 0.5;
    return share <= 0 ? 0 : share >= 1 ? 1 : share;
  };
  const solid = (ink: number): number => SOLID_COVERAGE * (1 + 0.5 * mottle * spread[ink]);
  const addOverprints = (weight: number): void => {
    const [yellow, red, blue, black] = cover;
    const a0 = weight * (1 - yellow) * (1 - red);
    const a1 = weight * yellow * (1 - red);
    const a2 = weight * (1 - yellow) * red;
    const a3 = weight * yellow * red;
    for (let j = 0; j < 4; j++) {
      const b = ((j & 1) === 1 ? blue : 1 - blue) * (j > 1 ? black : 1 - black);
      if (b === 0) continue;
      acc[4 * j] += a0 * b;
      acc[4 * j + 1] += a1 * b;
      acc[4 * j + 2] += a2 * b;
      acc[4 * j + 3] += a3 * b;
    }
  };
  /** Line and tone values of the plates at a place, between lattice points. */
  const readPlates = (x: number, y: number): void => {
    const px = Math.min(plates.columns - 1.001, Math.max(0, x / LATTICE_MM - 0.5));
    const py = Math.min(plates.rows - 1.001, Math.max(0, y / LATTICE_MM - 0.5));
    const column = px | 0;
    const row = py | 0;
    const u = px - column;
    const v = py - row;
    const at = row * plates.columns + column;
    const below = at + plates.columns;
    for (let ink = 0; ink < 4; ink++) {
      const line = plates.line[ink];
      const lineTop = line[at] + (line[at + 1] - line[at]) * u;
      const lineFoot = line[below] + (line[below + 1] - line[below]) * u;
      lines[ink] = lineTop + (lineFoot - lineTop) * v;
      const tone = plates.tone[ink];
      const toneTop = tone[at] + (tone[at + 1] - tone[at]) * u;
      const toneFoot = tone[below] + (tone[below + 1] - tone[below]) * u;
      tones[ink] = toneTop + (toneFoot - toneTop) * v;
    }
  };

  return (y, out) => {
    const yMm = (y + 0.5) * pixelMm;
    const nodeRow = Math.min(nodeRows - 2, Math.floor(yMm / MAP_STEP_MM));
    const fy = yMm / MAP_STEP_MM - nodeRow;
    for (let x = 0; x < width; x++) {
      const xMm = (x + 0.5) * pixelMm;
      const nodeColumn = Math.min(nodeColumns - 2, Math.floor(xMm / MAP_STEP_MM));
      const fx = xMm / MAP_STEP_MM - nodeColumn;
      const node = 2 * (nodeRow * nodeColumns + nodeColumn);
      const under = node + 2 * nodeColumns;
      const x00 = nodes[node];
      const y00 = nodes[node + 1];
      const x10 = nodes[node + 2];
      const y10 = nodes[node + 3];
      const x01 = nodes[under];
      const y01 = nodes[under + 1];
      const x11 = nodes[under + 2];
      const y11 = nodes[under + 3];
      const X = (x00 * (1 - fx) + x10 * fx) * (1 - fy) + (x01 * (1 - fx) + x11 * fx) * fy;
      const Y = (y00 * (1 - fx) + y10 * fx) * (1 - fy) + (y01 * (1 - fx) + y11 * fx) * fy;
      const depth = Math.min(X, plates.widthMm - X, Y, plates.heightMm - Y);
      if (depth < -0.5) continue;
      const perX = subMm / MAP_STEP_MM;
      const ux = (x10 - x00) * perX;
      const uy = (y10 - y00) * perX;
      const vx = (x01 - x00) * perX;
      const vy = (y01 - y00) * perX;

      let inside = 1;
      if (depth < OUTLINE_DEPTH_MM) {
        const here = outline(X, Y);
        if (here > -pixelMm) {
          inside = 0;
          for (let j = 0; j < n; j++)
            for (let i = 0; i < n; i++) {
              const du = i - (n - 1) / 2;
              const dv = j - (n - 1) / 2;
              const d = outline(X + du * ux + dv * vx, Y + du * uy + dv * vy);
              inside += Math.min(1, Math.max(0, 0.5 - d / subMm));
            }
          inside /= n * n;
          if (inside === 0) continue;
        }
      }

      const noiseX = (X + POSITIVE_MM) / NOISE_STEP_MM;
      const noiseY = (Y + POSITIVE_MM) / NOISE_STEP_MM;
      const blockColumn = Math.min(blocks.columns - 1, Math.max(0, (X / (LATTICE_MM * BLOCK)) | 0));
      const blockRow = Math.min(blocks.rows - 1, Math.max(0, (Y / (LATTICE_MM * BLOCK)) | 0));
      const kind = blocks.kind[blockRow * blocks.columns + blockColumn];
      acc.fill(0);
      if (kind === 0) acc[0] = 1;
      else {
        for (let ink = 0; ink < 4; ink++)
          spread[ink] =
            mottle === 0 ? 0 : textureAt(texture.mottle, noiseX + 337 * ink, noiseY + 591 * ink);
        if (kind > 0) {
          for (let ink = 0; ink < 4; ink++) cover[ink] = (kind >> ink) & 1 ? solid(ink) : 0;
          addOverprints(1);
        } else {
          const weight = 1 / (n * n);
          if (kind === -1) readPlates(X, Y);
          for (let j = 0; j < n; j++)
            for (let i = 0; i < n; i++) {
              const du = i - (n - 1) / 2;
              const dv = j - (n - 1) / 2;
              const sx = X + du * ux + dv * vx;
              const sy = Y + du * uy + dv * vy;
              if (kind === -2) readPlates(sx, sy);
              for (let ink = 0; ink < 4; ink++) {
                const edge = (lines[ink] - 127.5) * crisp + 0.5;
                const line = edge <= 0 ? 0 : edge >= 1 ? 1 : edge;
                let c = line === 0 ? 0 : line * solid(ink);
                if (tones[ink] > 0 && line < 1) c += (1 - line) * screened(ink, sx, sy);
                cover[ink] = c;
              }
              addOverprints(weight);
            }
        }
      }

      let light0 = 0;
      let light1 = 0;
      let light2 = 0;
      const cx = Math.min(conditions.columns - 1.001, Math.max(0, X / CONDITION_MM));
      const cy = Math.min(conditions.rows - 1.001, Math.max(0, Y / CONDITION_MM));
      const cell = (cy | 0) * conditions.columns + (cx | 0);
      const last = conditions.plain[cell] === 1 ? 1 : conditionCount;
      const cu = cx - (cx | 0);
      const cv = cy - (cy | 0);
      for (let condition = 0; condition < last; condition++) {
        let share = 1;
        if (last > 1) {
          const plane = conditions.shares[condition];
          const next = cell + conditions.columns;
          const top = plane[cell] + (plane[cell + 1] - plane[cell]) * cu;
          const foot = plane[next] + (plane[next + 1] - plane[next]) * cu;
          share = top + (foot - top) * cv;
          if (share === 0) continue;
        }
        for (let k = 0; k < 16; k++) {
          const weight = share * acc[k];
          if (weight === 0) continue;
          const p = 3 * (16 * condition + k);
          light0 += weight * primaries[p];
          light1 += weight * primaries[p + 1];
          light2 += weight * primaries[p + 2];
        }
      }
      const fibre =
        inside * (grain === 0 ? 1 : 1 + grain * textureAt(texture.grain, noiseX, noiseY));
      out[3 * x] += fibre * light0 - inside * out[3 * x];
      out[3 * x + 1] += fibre * light1 - inside * out[3 * x + 1];
      out[3 * x + 2] += fibre * light2 - inside * out[3 * x + 2];
    }
  };
}
