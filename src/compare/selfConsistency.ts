import { ciede2000 } from "../colour/ciede2000.ts";
import { quantile } from "../numeric/statistics.ts";
import type { LabPlanes } from "../change/differenceMap.ts";

/** Cells looked at: enough for a percentile, few enough to cost nothing. */
const SAMPLES = 20_000;

/**
 * What misplacement alone could feign: dE00 (95th percentile) of the before scan against itself, displaced by the
 * registration's own residual along both axes.
 * @param lab Low-passed Lab of the before scan. @param width Cells a row.
 * @param shiftCells The residual in cells.
 * @param cores Non-zero on cells that enter means.
 * @returns null where no cell is left.
 */
export function selfConsistency(
  lab: LabPlanes,
  width: number,
  shiftCells: number,
  cores: Uint8Array,
): number | null {
  const [L, a, b] = lab;
  const stride = Math.max(1, Math.floor(cores.length / SAMPLES));
  const differences: number[] = [];
  for (let i = 0; i + width + 1 < cores.length; i += stride) {
    if (cores[i] === 0) continue;
    const moved = (plane: Float32Array): number =>
      plane[i] + shiftCells * (plane[i + 1] - plane[i] + plane[i + width] - plane[i]);
    const difference = ciede2000([L[i], a[i], b[i]], [moved(L), moved(a), moved(b)]);
    if (!Number.isNaN(difference)) differences.push(difference);
  }
  return differences.length === 0 ? null : quantile(differences, 0.95);
}
