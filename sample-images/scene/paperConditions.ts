import { seededRandom } from "../../src/numeric/random.ts";
import { LATTICE_MM, INKS } from "./plates.ts";
import type { Ink, Plates } from "./plates.ts";
import { CONDITIONS } from "./sheetSpectra.ts";
import type { Condition } from "./sheetSpectra.ts";
import { fractalNoise } from "./valueNoise.ts";

/** Distance of the points at which the state of the paper is known. */
export const CONDITION_MM = 0.5;

/**
 * How much of each point of the paper is in which {@link CONDITIONS condition}: shares that sum to 1. Point (column, row) lies at
 * (column, row) * CONDITION_MM.
 */
export interface PaperConditions {
  readonly columns: number;
  readonly rows: number;
  /** One plane for each condition. */
  readonly shares: readonly Float32Array[];
  /** 1 where the cell to the right and below holds nothing but `even` paper. */
  readonly plain: Uint8Array;
}

/** A brown line where wet paper met dry, wandering across the sheet at about this height. */
export interface TideLine {
  readonly yMm: number;
  /** Full width at half strength. */
  readonly widthMm: number;
  readonly strength: number;
}

/** Colour that left a printed edge into bare paper. */
export interface Bleed {
  readonly ink: Ink;
  /** How far it reaches. */
  readonly reachMm: number;
  /** Where on the sheet: left, top, right, bottom in mm. */
  readonly boxMm: readonly [number, number, number, number];
}

export interface ConditionOptions {
  readonly seed: number;
  /** Toned edges, soil blotches and foxing; false gives even paper. */
  readonly worn: boolean;
  readonly tideLine: TideLine | null;
  readonly bleed: Bleed | null;
  /** Largest share of a place left as it was before washing, 0..1; 0 cleans evenly. */
  readonly unevenCleaning: number;
}

function ramp(from: number, to: number, value: number): number {
  const t = Math.min(1, Math.max(0, (value - from) / (to - from)));
  return t * t * (3 - 2 * t);
}

/** Distance to the nearest point where the ink is printed solid, up to `reach`; Infinity beyond it or on printed ground. */
function bleedReach(plates: Plates, bleed: Bleed, x: number, y: number): number {
  const line = plates.line[INKS.indexOf(bleed.ink)];
  const column = Math.round(x / LATTICE_MM - 0.5);
  const row = Math.round(y / LATTICE_MM - 0.5);
  const inside = (c: number, r: number): boolean =>
    c >= 0 && r >= 0 && c < plates.columns && r < plates.rows;
  if (!inside(column, row)) return Infinity;
  const here = row * plates.columns + column;
  if (plates.line.some((p) => p[here] > 0) || plates.tone.some((p) => p[here] > 0)) return Infinity;
  const steps = Math.ceil(bleed.reachMm / LATTICE_MM);
  let nearest = Infinity;
  for (let dr = -steps; dr <= steps; dr += 2)
    for (let dc = -steps; dc <= steps; dc += 2) {
      const d = Math.hypot(dc, dr);
      if (d < nearest && inside(column + dc, row + dr))
        if (line[(row + dr) * plates.columns + column + dc] > 127) nearest = d;
    }
  return nearest * LATTICE_MM;
}

/** The state of the paper over the sheet. */
export function paperConditions(plates: Plates, options: ConditionOptions): PaperConditions {
  const { widthMm, heightMm } = plates;
  const columns = Math.ceil(widthMm / CONDITION_MM) + 2;
  const rows = Math.ceil(heightMm / CONDITION_MM) + 2;
  const shares = CONDITIONS.map(() => new Float32Array(columns * rows));
  const plane = (condition: Condition): Float32Array => shares[CONDITIONS.indexOf(condition)];
  const { seed } = options;
  const random = seededRandom(seed);
  const spots = Array.from({ length: 26 }, () => ({
    x: widthMm * random.uniform(),
    y: heightMm * random.uniform(),
    radius: 0.6 + 2 * random.uniform() ** 2,
    strength: 0.35 + 0.55 * random.uniform(),
  }));
  const blotches = Array.from({ length: 7 }, () => ({
    x: widthMm * random.uniform(),
    y: heightMm * random.uniform(),
    radius: 6 + 14 * random.uniform(),
    strength: 0.25 + 0.4 * random.uniform(),
  }));

  for (let row = 0; row < rows; row++)
    for (let column = 0; column < columns; column++) {
      const x = column * CONDITION_MM;
      const y = row * CONDITION_MM;
      const at = row * columns + column;
      let left = 1;
      const take = (condition: Condition, share: number): void => {
        const value = left * Math.min(1, Math.max(0, share));
        plane(condition)[at] += value;
        left -= value;
      };
      if (options.bleed !== null) {
        const { boxMm, reachMm } = options.bleed;
        const margin = reachMm;
        if (
          x > boxMm[0] - margin &&
          x < boxMm[2] + margin &&
          y > boxMm[1] - margin &&
          y < boxMm[3] + margin
        )
          take("bleed", 0.9 * Math.max(0, 1 - bleedReach(plates, options.bleed, x, y) / reachMm));
      }
      if (options.tideLine !== null) {
        const { yMm, widthMm: width, strength } = options.tideLine;
        const front = yMm + 9 * fractalNoise(seed + 71, x / 42, 0, 3) - 6 * (x / widthMm);
        // A tide line has a sharp outer edge and fades towards where the water came from.
        const d = (y - front) / width;
        take("tide", strength * (d > 0 ? Math.exp(-4 * Math.LN2 * d * d) : Math.exp(-2.2 * d * d)));
      }
      if (options.worn) {
        const edge = Math.min(x, widthMm - x, y, heightMm - y);
        const wander = 2.5 * fractalNoise(seed + 61, x / 14, y / 14, 3);
        take("toned", 0.85 * (1 - ramp(0, 9, edge + wander)));
        for (const blotch of blotches) {
          const d = Math.hypot(x - blotch.x, y - blotch.y) / blotch.radius;
          if (d < 1.4)
            take(
              "soiled",
              blotch.strength *
                (1 - ramp(0.3, 1.2, d + 0.35 * fractalNoise(seed + 67, x / 5, y / 5, 3))),
            );
        }
        for (const spot of spots) {
          const d = Math.hypot(x - spot.x, y - spot.y) / spot.radius;
          if (d < 1.2) take("foxed", spot.strength * (1 - ramp(0.2, 1.1, d)));
        }
      }
      if (options.unevenCleaning > 0)
        take(
          "uncleaned",
          options.unevenCleaning * ramp(-0.1, 0.3, fractalNoise(seed + 83, x / 45, y / 45, 2)),
        );
      plane("even")[at] = left;
    }

  const plain = new Uint8Array(columns * rows);
  const even = shares[0];
  for (let row = 0; row + 1 < rows; row++)
    for (let column = 0; column + 1 < columns; column++) {
      const at = row * columns + column;
      const all =
        even[at] === 1 &&
        even[at + 1] === 1 &&
        even[at + columns] === 1 &&
        even[at + columns + 1] === 1;
      plain[at] = all ? 1 : 0;
    }
  return { columns, rows, shares, plain };
}
