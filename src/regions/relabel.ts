import type { InkGroup } from "./applyCorrections.ts";
import { PAPER_ID } from "./applyCorrections.ts";
import { PAPER_LABEL } from "./regionMap.ts";

/**
 * Turns labels of the segmentation into those of the groups, in place: inks by area, then paper as 255.
 * @returns The groups of the inks by label; groups without cells are left out.
 */
export function relabel(labels: Uint8Array, groups: readonly InkGroup[]): InkGroup[] {
  const count = new Int32Array(256);
  for (let i = 0; i < labels.length; i++) count[labels[i]]++;
  const cellsOf = (group: InkGroup): number =>
    group.members.reduce((sum, member) => sum + count[member], 0);
  const inks = groups
    .filter((group) => group.id !== PAPER_ID && cellsOf(group) > 0)
    .sort((p, q) => cellsOf(q) - cellsOf(p));
  const label = new Uint8Array(256);
  inks.forEach((group, n) => group.members.forEach((member) => (label[member] = n + 1)));
  for (const group of groups)
    if (group.id === PAPER_ID) for (const member of group.members) label[member] = PAPER_LABEL;
  for (let i = 0; i < labels.length; i++) labels[i] = label[labels[i]];
  return inks;
}
