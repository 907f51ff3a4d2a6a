import type { Planes } from "../grid/planes.ts";
import { type MappedGrid, mapGrid } from "../register/mapGrid.ts";
import type { Registration } from "../register/registration.ts";

/** Trust of a place that maps onto itself: full information along both axes. */
const FULL_TRUST = 2;

/** Where each cell of the before lattice lies in the after frame. `null`: both frames are the same file. */
export function cellMap(registration: Registration | null, lattice: Planes): MappedGrid {
  if (registration !== null) return mapGrid(registration, lattice);
  const { width, height, stepX, stepY } = lattice;
  const cells = width * height;
  return {
    x: Float32Array.from({ length: cells }, (_, i) => ((i % width) + 0.5) * stepX - 0.5),
    y: Float32Array.from({ length: cells }, (_, i) => (Math.floor(i / width) + 0.5) * stepY - 0.5),
    trust: new Float32Array(cells).fill(FULL_TRUST),
    sigmaMm: new Float32Array(cells),
  };
}
