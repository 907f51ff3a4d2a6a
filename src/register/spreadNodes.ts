import type { NodeField } from "./nodeField.ts";
import { nodePlace } from "./nodeLattice.ts";

/** Nodes reported of a sheet, about: one in each of so many cells. */
const CELLS = 100;

/**
 * The most trusted node of each square cell, so that the choice covers the whole sheet.
 * @param candidates Nodes to choose from.
 * @param least So many are chosen where there are as many; the cells shrink until it is so.
 * @returns Nodes, ascending.
 */
export function spreadNodes(
  field: NodeField,
  trust: Float64Array,
  candidates: readonly number[],
  least: number,
): number[] {
  let cell = Math.max(field.mmPerCell, field.mmPerCell * Math.sqrt(candidates.length / CELLS));
  for (;;) {
    const best = new Map<string, number>();
    for (const node of candidates) {
      const [x, y] = nodePlace(field, node);
      const key = `${Math.floor((x - field.left) / cell)} ${Math.floor((y - field.top) / cell)}`;
      const rival = best.get(key);
      if (rival === undefined || trust[node] > trust[rival]) best.set(key, node);
    }
    if (best.size >= Math.min(least, candidates.length) || cell <= field.mmPerCell / 2)
      return [...best.values()].sort((a, b) => a - b);
    cell *= 0.8;
  }
}
