import type { SheetFrame } from "./sheetFrame.ts";
import type { TileMeasurements } from "./measureTiles.ts";
import type { Pass } from "./passes.ts";
import { type NodeInformation, relaxNodes } from "./relaxNodes.ts";
import type { SheetMap } from "./sheetMap.ts";
import type { StructureImage } from "./structureImage.ts";
import type { SheetRegion } from "./sheetRegion.ts";
import { tileWorkers } from "./tileWorkers.ts";
import { excludedPixels, workingGrey } from "./workingGrey.ts";

interface BothSides<Value> {
  readonly before: Value;
  readonly after: Value;
}

export interface RefinedMap {
  readonly map: SheetMap;
  readonly trust: Float64Array;
  readonly information: NodeInformation;
  /** Of the last pass. */
  readonly measured: TileMeasurements;
}

export interface RefineOptions {
  readonly passes: readonly Pass[];
  /** Called after each pass. */
  readonly onPass: (done: number) => void;
  /** How many share a pass; the result doesn't depend on it. */
  readonly threads: number | undefined;
}

/**
 * Refines a map by passes of tile correlation from coarse to fine, each followed by a robust relaxation.
 * @param active 1 for nodes on the sheet.
 */
export async function refineMap(
  frames: BothSides<SheetFrame>,
  regions: BothSides<SheetRegion>,
  start: SheetMap,
  active: Uint8Array,
  { passes, onPass, threads }: RefineOptions,
): Promise<RefinedMap> {
  const workers = tileWorkers(threads);
  const structure = async (
    frame: SheetFrame,
    { excluded }: SheetRegion,
    { dpi, radiusMm }: Pass,
  ): Promise<StructureImage> => {
    const grey = await workingGrey(frame, dpi);
    return workers.structure(grey, excludedPixels(grey, excluded), radiusMm);
  };
  try {
    let map = start;
    let pictures: readonly [StructureImage, StructureImage] | undefined;
    let last: RefinedMap | undefined;
    for (const [index, pass] of passes.entries()) {
      const previous = passes[index - 1] as Pass | undefined;
      if (previous?.dpi !== pass.dpi || previous.radiusMm !== pass.radiusMm) pictures = undefined;
      // The old pair is let go before the next and larger one is made.
      pictures ??= await Promise.all([
        structure(frames.before, regions.before, pass),
        structure(frames.after, regions.after, pass),
      ]);
      const nodes = everyNode(active, map.field.width, pass.everyNode);
      const measured = await workers.measure(...pictures, map, nodes, pass);
      const { field, ...certainty } = relaxNodes(map.field, measured, pass.toleranceMm);
      map = { affine: map.affine, field };
      last = { map, ...certainty, measured };
      onPass(index + 1);
    }
    if (last === undefined) throw new RangeError("Expected at least one pass.");
    return last;
  } finally {
    await workers.end();
  }
}

/** Of some nodes, those in every so many columns and rows. */
function everyNode(active: Uint8Array, width: number, every: number): Uint8Array {
  return active.map((on, node) => {
    const column = node % width;
    return column % every === 0 && ((node - column) / width) % every === 0 ? on : 0;
  });
}
