import { startThreads } from "../threads/startThreads.ts";
import type { measureTiles, TileMeasurements } from "./measureTiles.ts";
import type { structureImage, StructureImage } from "./structureImage.ts";
import type * as work from "./tileWorker.ts";

/** The stages of a pass, in threads of their own: the caller's thread stays free for other work. */
export interface TileWorkers {
  structure(...given: Parameters<typeof structureImage>): Promise<StructureImage>;
  measure(...given: Parameters<typeof measureTiles>): Promise<TileMeasurements>;
  /** Ends the threads. */
  end(): Promise<void>;
}

/** Both frames, or both halves of a sheet, at once. */
const WORKERS = 2;

/**
 * Starts the threads of one registration.
 * @param workers How many; the result doesn't depend on it. Default WORKERS.
 */
export function tileWorkers(workers: number = WORKERS): TileWorkers {
  const threads = startThreads<typeof work>(import.meta.url, "tileWorker", {
    most: workers,
    idleMs: 10_000,
  });
  return {
    structure: (...given) => threads.run("structure", given),
    async measure(before, after, map, active, pass) {
      const { width, height } = map.field;
      const parts = partsOf(active, width, height);
      const measured = await Promise.all(
        parts.map((part) => threads.run("measure", [before, after, map, part, pass])),
      );
      return joined(measured, parts);
    },
    end: () => threads.end(),
  };
}

/** The nodes of the upper and of the lower half: as many on the sheet in each. */
function partsOf(active: Uint8Array, width: number, height: number): Uint8Array[] {
  const all = active.reduce((sum, on) => sum + on, 0);
  let row = 0;
  for (let count = 0; row < height && 2 * count < all; row++)
    for (let c = 0; c < width; c++) count += active[row * width + c];
  const cut = row * width;
  return [active.map((on, i) => (i < cut ? on : 0)), active.map((on, i) => (i < cut ? 0 : on))];
}

/** Each node from the part that measured it. */
function joined(
  [upper, lower]: readonly TileMeasurements[],
  [, lowerNodes]: readonly Uint8Array[],
): TileMeasurements {
  const floats = (name: Exclude<keyof TileMeasurements, "possible">): Float64Array =>
    upper[name].map((value, node) => (lowerNodes[node] === 0 ? value : lower[name][node]));
  return {
    possible: upper.possible.map((on, node) =>
      lowerNodes[node] === 0 ? on : lower.possible[node],
    ),
    structure: floats("structure"),
    ncc: floats("ncc"),
    dx: floats("dx"),
    dy: floats("dy"),
    xx: floats("xx"),
    xy: floats("xy"),
    yy: floats("yy"),
    step: floats("step"),
  };
}
