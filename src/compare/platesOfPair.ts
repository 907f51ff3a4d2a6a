import { LastrinseError, type Warning } from "../errors.ts";
import type { Box } from "../grid/box.ts";
import type { Plate, PlateSeparation, WorstTile } from "../plates/plates.ts";
import type { SeparationOptions } from "../plates/separatePlates.ts";
import { TILE_MM } from "../plates/tileMap.ts";
import type { PlateModelReport, PlateReport } from "../results/compareResult.ts";
import type { PlateTiles } from "../results/plateTiles.ts";
import { startThreads } from "../threads/startThreads.ts";
import type { PlateGrid } from "./plateGrid.ts";
import type * as work from "./platesWorker.ts";

/** What a comparison says of the printing inks. */
export interface PlatesOfPair {
  /** null where the plates could not be separated, or were not asked for. */
  readonly plates: readonly PlateReport[] | null;
  readonly plateModel: PlateModelReport | null;
  readonly warnings: readonly Warning[];
  /** Loss in every tile; null without plates. */
  readonly tiles: PlateTiles | null;
}

/** Where plates were not asked for. */
export const NO_PLATES: PlatesOfPair = {
  plates: null,
  plateModel: null,
  warnings: [],
  tiles: null,
};

const TOO_LITTLE =
  "The sheet shows too little print to tell its printing inks apart; the list of colours counts.";

/**
 * `separatePlates` in a thread of its own, so that the damage is sought and the pictures are drawn meanwhile.
 * @throws {LastrinseError} too-little-print, where `strict`.
 */
export async function platesOfPair(
  grid: PlateGrid,
  options: SeparationOptions,
  strict: boolean,
): Promise<PlatesOfPair> {
  const threads = startThreads<typeof work>(import.meta.url, "platesWorker", { most: 1 });
  try {
    return reportPlates(await threads.run("plates", { cells: grid.cells, options }), grid, strict);
  } finally {
    await threads.end();
  }
}

function reportPlates(
  { plates, model, map, warnings }: PlateSeparation,
  grid: PlateGrid,
  strict: boolean,
): PlatesOfPair {
  const { bands, cells, tiles, blackAmbiguity, misfit, darkness, refused } = model;
  if (refused !== null && strict)
    throw new LastrinseError("too-little-print", TOO_LITTLE, {
      remedy: "Leave out --strict, or give --plates none.",
    });
  const { width, height } = grid.cells;
  const columns = Math.ceil(width / TILE_MM);
  const rows = Math.ceil(height / TILE_MM);
  return {
    plates: plates?.map((plate) => reportPlate(plate, grid)) ?? null,
    plateModel: {
      bands,
      paper: model.paper,
      paperChange: model.paperChange,
      cells,
      tiles,
      blackAmbiguity,
      misfit,
      film: model.film,
      darkness,
      refused,
    },
    warnings: refused === null ? warnings : [{ code: refused, message: TOO_LITTLE }],
    tiles:
      plates === null
        ? null
        : {
            schema: "lastrinse.plate-tiles",
            version: 1,
            tileMm: TILE_MM,
            originPixels: grid.originPixels,
            pixelsPerMm: grid.pixelsPerMm,
            columns,
            rows,
            plates: Object.fromEntries(
              plates.map(({ id }, i) => [
                id,
                map?.plates[i].map((tile) => tile?.lost ?? null) ??
                  Array.from({ length: columns * rows }, () => null),
              ]),
            ),
          },
  };
}

function reportPlate(plate: Plate, grid: PlateGrid): PlateReport {
  const { id, name, solidLab, source, meanCoverage, lost, low, high, verdict, deltaE00 } = plate;
  return {
    id,
    name,
    solidLab,
    source,
    meanCoverage,
    lost,
    low,
    high,
    verdict,
    deltaE00,
    // Of a plate of which nothing is claimed no place is accused either.
    worst: plate.worst === null || verdict !== "lost" ? null : reportWorst(plate.worst, grid),
    tiles: { file: "plates.json", cellMm: TILE_MM },
  };
}

function reportWorst({ boxMm, lost, low, high }: WorstTile, grid: PlateGrid) {
  const { originPixels, pixelsPerMm, cells } = grid;
  const boxPixels: Box = [
    Math.round(originPixels[0] + boxMm.x * pixelsPerMm),
    Math.round(originPixels[1] + boxMm.y * pixelsPerMm),
    Math.round(boxMm.width * pixelsPerMm),
    Math.round(boxMm.height * pixelsPerMm),
  ];
  const across = third((boxMm.x + boxMm.width / 2) / cells.width, "left", "right");
  const down = third((boxMm.y + boxMm.height / 2) / cells.height, "top", "bottom");
  const place = [down, across].filter((word) => word !== "").join(" ");
  return { place: place === "" ? "middle" : place, boxPixels, lost, low, high };
}

function third(share: number, first: string, last: string): string {
  return share < 1 / 3 ? first : share > 2 / 3 ? last : "";
}
