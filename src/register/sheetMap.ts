import type { Affine } from "./affine.ts";
import { displacementAt, type NodeField } from "./nodeField.ts";

/** The map from before to after in mm: q = affine(p + d(p)), d held at the nodes, in mm of the before frame. */
export interface SheetMap {
  readonly affine: Affine;
  readonly field: NodeField;
}

const D = new Float64Array(2);

/**
 * Where a place of the before frame lies in the after frame, mm.
 * @param out Receives x, y.
 */
export function mapMm({ affine, field }: SheetMap, x: number, y: number, out: Float64Array): void {
  displacementAt(field, x, y, D);
  const px = x + D[0];
  const py = y + D[1];
  out[0] = affine.a * px + affine.b * py + affine.tx;
  out[1] = affine.c * px + affine.d * py + affine.ty;
}
