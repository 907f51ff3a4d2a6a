import chroma from "chroma-js";
import { encodePng } from "./encodePng.ts";
import { hatched } from "./hatching.ts";
import { HEAT_MAP_COLOURS, HEAT_MAP_HATCHING } from "./heatMap.ts";
import type { Rgb } from "./rgb.ts";

/** The scale never moves, so that two reports can be laid side by side. */
export const PLATES_MAX_PERCENT = 40;
/** Percent at which the scale under the maps is notched. */
export const PLATES_TICKS = [0, 10, 20, 30, 40] as const;

/** Perceptually even and safe for colour-blind readers; 0 at its dark end, as in the map of differences. */
const VIRIDIS = chroma.scale("Viridis");
const INK: Rgb = [38, 34, 28];
const TILE = 24;
const GAP = 16;
/** Scale: colours, then the notches below them. */
const SCALE_HEIGHT = 14;
const NOTCH = { width: 4, height: 8 } as const;

/** One map of the row. */
export interface MappedPlate {
  readonly id: string;
  /** Only of a plate that lost, or may have lost, are there values. */
  readonly verdict: "lost" | "uncertain" | "none-shown" | "absent";
}

/** Shares lost, 0..1, by plate, row by row; null: not told. */
export interface MappedTiles {
  readonly columns: number;
  readonly rows: number;
  readonly plates: Readonly<Record<string, readonly (number | null)[]>>;
}

/** sRGB colour of a share lost, 0..1. */
export function plateLossColour(lost: number): Rgb {
  const share = (100 * lost) / PLATES_MAX_PERCENT;
  if (share > 1) return HEAT_MAP_COLOURS.beyondScale;
  const [r, g, b] = VIRIDIS(Math.max(0, share)).rgb();
  return [r, g, b];
}

/**
 * Loss of each plate by tile, one map beside the other in the order of `plates`, and the scale below. Dark lines: the tile has too little of
 * the plate; pale lines over a whole map: nothing of the plate is claimed or open. Same tiles, same bytes.
 */
export async function platesPicture(
  plates: readonly MappedPlate[],
  tiles: MappedTiles,
): Promise<Buffer> {
  const { columns, rows } = tiles;
  const [mapWidth, mapHeight] = [columns * TILE, rows * TILE];
  const width = GAP + plates.length * (mapWidth + GAP);
  const height = 3 * GAP + mapHeight + SCALE_HEIGHT + NOTCH.height;
  const data = new Uint8Array(3 * width * height);
  const fill = (
    [left, top, w, h]: readonly [number, number, number, number],
    tone: (x: number, y: number) => Rgb,
  ): void => {
    for (let y = top; y < top + h; y++)
      for (let x = left; x < left + w; x++) data.set(tone(x, y), 3 * (y * width + x));
  };
  const unprinted = hatched(HEAT_MAP_HATCHING.notMeasured, mapWidth);
  const unclaimed = hatched(HEAT_MAP_HATCHING.belowFloor, mapWidth);

  fill([0, 0, width, height], () => HEAT_MAP_COLOURS.barePaper);
  for (const [i, { id, verdict }] of plates.entries()) {
    const mapped = verdict === "lost" || verdict === "uncertain";
    for (let tile = 0; tile < columns * rows; tile++) {
      const lost = tiles.plates[id][tile];
      const left = GAP + i * (mapWidth + GAP) + (tile % columns) * TILE;
      const top = GAP + Math.floor(tile / columns) * TILE;
      const colour = lost === null || !mapped ? null : plateLossColour(lost);
      fill([left, top, TILE, TILE], colour === null ? (mapped ? unprinted : unclaimed) : () => colour); // prettier-ignore
    }
  }
  const scale = width - 2 * GAP;
  const top = 2 * GAP + mapHeight;
  fill([GAP, top, scale, SCALE_HEIGHT], (x) =>
    plateLossColour(((x - GAP) / (scale - 1)) * (PLATES_MAX_PERCENT / 100)),
  );
  for (const tick of PLATES_TICKS) {
    const left = GAP + Math.round((tick / PLATES_MAX_PERCENT) * (scale - NOTCH.width));
    fill([left, top + SCALE_HEIGHT, NOTCH.width, NOTCH.height], () => INK);
  }
  return encodePng({ width, height, channels: 3, data });
}
