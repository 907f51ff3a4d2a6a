import { Tinypool } from "tinypool";
import type { measureTiles, TileMeasurements } from "./measureTiles.ts";
import type { structureImage, StructureImage } from "./structureImage.ts";

/** The stages of a pass, in threads of their own: the caller's thread stays free for other work. */
export interface TileWorkers {
  structure(...given: Parameters<typeof structureImage>): Promise<StructureImage>;
  measure(...given: Parameters<typeof measureTiles>): Promise<TileMeasurements>;
  /** Ends the threads. */
  end(): Promise<void>;
}

/** Both frames, or both halves of a sheet, at once. */
const WORKERS = 2;

/** Workers are always started from the compiled tree, also when the source runs under a TypeScript loader. */
const WORKER_URL = import.meta.url.endsWith(".ts")
  ? new URL("../../dist/src/register/tileWorker.js", import.meta.url)
  : new URL("./tileWorker.js", import.meta.url);

/**
 * Starts the threads of one registration.
 * @param workers How many; the result doesn't depend on it. Default WORKERS.
 */
export function tileWorkers(workers: number = WORKERS): TileWorkers {
  const pool = new Tinypool({
    filename: WORKER_URL.href,
    runtime: "worker_threads",
    minThreads: 0,
    maxThreads: workers,
    idleTimeout: 10_000,
    concurrentTasksPerWorker: 1,
  });
  return {
    structure: (...given) => pool.run(given, { name: "structure" }) as Promise<StructureImage>,
    async measure(before, after, map, active, pass) {
      const { columns, rows } = map.field;
      const parts = partsOf(active, columns, rows);
      const measured = await Promise.all(
        parts.map(
          (part) =>
            pool.run([before, after, map, part, pass], {
              name: "measure",
            }) as Promise<TileMeasurements>,
        ),
      );
      return joined(measured, parts);
    },
    end: () => pool.destroy(),
  };
}

/** The nodes of the upper and of the lower half: as many on the sheet in each. */
function partsOf(active: Uint8Array, columns: number, rows: number): Uint8Array[] {
  const all = active.reduce((sum, on) => sum + on, 0);
  let row = 0;
  for (let count = 0; row < rows && 2 * count < all; row++)
    for (let c = 0; c < columns; c++) count += active[row * columns + c];
  const cut = row * columns;
  return [active.map((on, i) => (i < cut ? on : 0)), active.map((on, i) => (i < cut ? 0 : on))];
}

/** Each node from the part that measured it. */
function joined(
  [upper, lower]: readonly TileMeasurements[],
  [, lowerNodes]: readonly Uint8Array[],
): TileMeasurements {
  for (const name of Object.keys(upper) as (keyof TileMeasurements)[])
    for (let node = 0; node < lowerNodes.length; node++)
      if (lowerNodes[node] !== 0) upper[name][node] = lower[name][node];
  return upper;
}
