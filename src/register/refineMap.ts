import type { Frame } from "./frame.ts";
import type { TileMeasurements } from "./measureTiles.ts";
import type { Pass } from "./passes.ts";
import { relaxNodes } from "./relaxNodes.ts";
import type { SheetMap } from "./sheetMap.ts";
import type { StructureImage } from "./structureImage.ts";
import type { SheetRegion } from "./sheetRegion.ts";
import { tileWorkers, type TileWorkers } from "./tileWorkers.ts";
import { excludedPixels, workingGrey } from "./workingGrey.ts";

export interface RefinedMap {
  readonly map: SheetMap;
  readonly trust: Float64Array;
  /** Of the last pass. */
  readonly measured: TileMeasurements;
}

interface StructurePair {
  readonly before: StructureImage;
  readonly after: StructureImage;
}

/**
 * Refines a map by passes of tile correlation from coarse to fine, each followed by a robust relaxation.
 * @param active 1 for nodes on the sheet.
 * @param onPass Called after each pass.
 */
export async function refineMap(
  before: Frame,
  after: Frame,
  regions: { readonly before: SheetRegion; readonly after: SheetRegion },
  start: SheetMap,
  active: Uint8Array,
  passes: readonly Pass[],
  onPass: (done: number) => void,
): Promise<RefinedMap> {
  const workers = tileWorkers();
  try {
    return await runPasses(workers, before, after, regions, start, active, passes, onPass);
  } finally {
    await workers.end();
  }
}

async function runPasses(
  workers: TileWorkers,
  before: Frame,
  after: Frame,
  regions: { readonly before: SheetRegion; readonly after: SheetRegion },
  start: SheetMap,
  active: Uint8Array,
  passes: readonly Pass[],
  onPass: (done: number) => void,
): Promise<RefinedMap> {
  let map = start;
  let pictures: StructurePair | undefined;
  let last: RefinedMap | undefined;
  for (const [index, pass] of passes.entries()) {
    const previous = passes[index - 1] as Pass | undefined;
    if (
      pictures === undefined ||
      previous === undefined ||
      previous.dpi !== pass.dpi ||
      previous.radiusMm !== pass.radiusMm
    ) {
      // The old pair is let go before the next and larger one is made.
      pictures = undefined;
      const structure = async (frame: Frame, region: SheetRegion): Promise<StructureImage> => {
        const grey = await workingGrey(frame, pass.dpi);
        return workers.structure(grey, excludedPixels(grey, region.excluded), pass.radiusMm);
      };
      const [first, second] = await Promise.all([
        structure(before, regions.before),
        structure(after, regions.after),
      ]);
      pictures = { before: first, after: second };
    }
    const measured = await workers.measure(pictures.before, pictures.after, map, active, pass);
    const { field, trust } = relaxNodes(map.field, measured, pass.toleranceMm);
    map = { affine: map.affine, field };
    last = { map, trust, measured };
    onPass(index + 1);
  }
  if (last === undefined) throw new RangeError("Expected at least one pass.");
  return last;
}
