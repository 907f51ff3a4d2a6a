import type { PairOptions } from "./pairOptions.ts";
import type { PairTruth } from "./pairTruth.ts";
import type { AreaTruth } from "./truth.ts";

const DECIMALS = 3;

function rounded(value: unknown): unknown {
  if (typeof value === "number") return Number(value.toFixed(DECIMALS));
  if (Array.isArray(value)) return value.map(rounded);
  if (typeof value === "object" && value !== null)
    return Object.fromEntries(Object.entries(value).map(([key, v]) => [key, rounded(v)]));
  return value;
}

/** Points of the before scan whose place in the after scan is written down: a grid over the sheet. */
const MAP_COLUMNS = 7;
const MAP_ROWS = 10;

function mapPoints(truth: PairTruth): unknown[] {
  const [a, , c] = truth.sheetCornersBefore;
  const points: unknown[] = [];
  for (let row = 0; row < MAP_ROWS; row++)
    for (let column = 0; column < MAP_COLUMNS; column++) {
      const x = Math.round(a[0] + ((c[0] - a[0]) * (column + 0.5)) / MAP_COLUMNS);
      const y = Math.round(a[1] + ((c[1] - a[1]) * (row + 0.5)) / MAP_ROWS);
      points.push({ before: [x, y], after: truth.mapBeforeToAfterPixels(x, y) });
    }
  return points;
}

function change(area: AreaTruth): object {
  const { labBefore: was, labAfter: is } = area;
  return { ...area, deltaL: is[0] - was[0], deltaA: is[1] - was[1], deltaB: is[2] - was[2] };
}

/** What the makers of the samples know about them, as the text of truth.json. Lab is CIELAB D50, differences are CIEDE2000. */
export function sampleTruth(options: PairOptions, truth: PairTruth): Record<string, unknown> {
  const { seed, coverSeed, dpiBefore, dpiAfter, inkLoss, yellowingRemoved, soilRemoved } = options;
  return rounded({
    about:
      "An invented cover, an invented washing. Everything below is known because the pictures were computed from it.",
    colour: { illuminant: "D50", observer: "2deg", difference: "CIEDE2000" },
    seed,
    coverSeed,
    dpiBefore,
    dpiAfter,
    inkLoss,
    yellowingRemoved,
    soilRemoved,
    paper: change(truth.paper),
    inks: truth.inks.map((ink) => ({ ...change(ink) })),
    cardCornersBefore: truth.cardCornersBefore,
    cardCornersAfter: truth.cardCornersAfter,
    sheetCornersBefore: truth.sheetCornersBefore,
    sheetCornersAfter: truth.sheetCornersAfter,
    map: mapPoints(truth),
  }) as Record<string, unknown>;
}
