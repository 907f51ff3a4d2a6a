import type { LabImage } from "../grid/labImage.ts";

/** How far the comparison reaches, and from which CIELAB distance on a cell counts as an edge. */
const REACH_MM = 0.25;
const EDGE_DELTA_E = 4;

/**
 * Cells on an edge: their colour differs by 4 CIELAB or more from one of the four points 0.25 mm away. A residual error
 * of the registration shows there as a false change, so they take no part in any mean.
 * @param image Low-passed.
 * @returns 1 on an edge, else 0. Cells without data are no edges and make none.
 */
export function edgeMask(image: LabImage): Uint8Array {
  const { width, height, L, a, b } = image;
  const reach = Math.max(1, Math.round(REACH_MM / image.mmPerCell));
  const limit2 = EDGE_DELTA_E * EDGE_DELTA_E;
  const edges = new Uint8Array(width * height);
  const compare = (i: number, j: number): void => {
    const dL = L[i] - L[j];
    const da = a[i] - a[j];
    const db = b[i] - b[j];
    if (dL * dL + da * da + db * db >= limit2) edges[i] = edges[j] = 1;
  };
  for (let y = 0; y < height; y++) {
    const end = (y + 1) * width - reach;
    for (let i = y * width; i < end; i++) compare(i, i + reach);
  }
  const down = reach * width;
  for (let i = 0; i < (height - reach) * width; i++) compare(i, i + down);
  return edges;
}
