import type { Point } from "../numeric/point.ts";
import { throughHomography } from "./sheetFrame.ts";
import type { Registration } from "./registration.ts";
import { mapMm } from "./sheetMap.ts";

const MM = new Float64Array(2);

/**
 * Where a place of the before frame lies in the after frame, full pixels of each. Between nodes by Catmull-Rom
 * interpolation; beyond the outermost nodes by the affine map with the displacement of the rim. The result may lie outside
 * the after frame.
 */
export function mapPoint(
  registration: Pick<Registration, "affine" | "nodes" | "before" | "after">,
  x: number,
  y: number,
): Point {
  const { affine, nodes, before, after } = registration;
  const [xMm, yMm] = throughHomography(before.toMm, x, y);
  mapMm({ affine, field: nodes }, xMm, yMm, MM);
  return throughHomography(after.fromMm, MM[0], MM[1]);
}
