import type { Point } from "../numeric/point.ts";
import { frameShows, type SheetFrame } from "./sheetFrame.ts";
import type { NodeField } from "./nodeField.ts";
import { NODE_SPACING_MM } from "./passes.ts";
import { onRegion, type SheetRegion } from "./sheetRegion.ts";

/**
 * Nodes over the box of the sheet and one spacing beyond it, or over the frame where its outline isn't known, centred in it;
 * no displacement yet. The nodes beyond see the edge of the sheet, which moves with it.
 */
export function nodeLattice(frame: SheetFrame, outline: readonly Point[] | null): NodeField {
  const xs = outline?.map(([x]) => x) ?? [frame.left, frame.left + frame.widthMm];
  const ys = outline?.map(([, y]) => y) ?? [frame.top, frame.top + frame.heightMm];
  const beyond = NODE_SPACING_MM;
  const along = (values: readonly number[]): { first: number; count: number } => {
    const from = Math.min(...values) - beyond;
    const length = Math.max(...values) + beyond - from;
    const count = Math.floor(length / NODE_SPACING_MM) + 1;
    return { first: from + (length - (count - 1) * NODE_SPACING_MM) / 2, count };
  };
  const x = along(xs);
  const y = along(ys);
  return {
    width: x.count,
    height: y.count,
    left: x.first,
    top: y.first,
    mmPerCell: NODE_SPACING_MM,
    dx: new Float64Array(x.count * y.count),
    dy: new Float64Array(x.count * y.count),
  };
}

/** Place of a node, mm. */
export function nodePlace(field: NodeField, node: number): Point {
  const column = node % field.width;
  const row = (node - column) / field.width;
  return [field.left + column * field.mmPerCell, field.top + row * field.mmPerCell];
}

/** 1 for each node that the frame shows, on the sheet or within `marginMm` of it, and not under what is excluded. */
export function nodesOnSheet(
  field: NodeField,
  frame: SheetFrame,
  region: SheetRegion,
  marginMm: number,
): Uint8Array {
  return Uint8Array.from({ length: field.width * field.height }, (_, node) => {
    const [x, y] = nodePlace(field, node);
    return frameShows(frame, x, y) && onRegion(region, x, y, marginMm) ? 1 : 0;
  });
}
