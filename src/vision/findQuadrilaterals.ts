import type { Quadrilateral, QuadrilateralSearch } from "./quadrilateral.ts";
import { callVision } from "./pool.ts";

/**
 * Four-sided patches in a picture, in pixels of that picture; each place about once.
 * Looks at each plane by adaptive threshold (both ways, two windows), between edges, and where the gradient is small.
 */
export function findQuadrilaterals(search: QuadrilateralSearch): Promise<Quadrilateral[]> {
  return callVision("findQuadrilaterals", search);
}
