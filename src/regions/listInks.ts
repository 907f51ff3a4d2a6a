import type { Box } from "../grid/box.ts";
import type { Grid } from "../grid/grid.ts";
import type { InkGroup } from "./applyCorrections.ts";
import { components } from "../grid/components.ts";
import type { Ink, Region } from "./regionMap.ts";
import { PAPER_LABEL } from "./regionMap.ts";
import { LEAST_PIECE_MM2 } from "./segment.ts";

/** More regions of one ink are counted in its area but not listed. */
export const MOST_REGIONS = 60;

/**
 * Lists the inks of a label picture with their regions.
 * @param labels 1..n in the order of `groups`, 255 paper, 0 not measured.
 * @param cores The same on the cells that may enter a mean.
 * @param groups By label.
 * @returns Inks by label; `components` as in a region map.
 */
export function listInks(
  labels: Uint8Array,
  cores: Uint8Array,
  { width, height, mmPerCell }: Grid,
  groups: readonly InkGroup[],
): { inks: Ink[]; components: Uint16Array } {
  const { piece, label, cells } = components(labels, width, height);
  const cm2PerCell = mmPerCell ** 2 / 100;
  const leastCells = LEAST_PIECE_MM2 / mmPerCell ** 2;

  const listed = groups.map(() => [] as number[]);
  for (let k = 0; k < cells.length; k++)
    if (label[k] !== PAPER_LABEL && cells[k] >= leastCells) listed[label[k] - 1].push(k);
  // Number of each listed piece, from 1.
  const number = new Uint16Array(cells.length);
  let last = 0;
  for (const pieces of listed) {
    pieces.sort((p, q) => cells[q] - cells[p] || p - q);
    pieces.length = Math.min(pieces.length, MOST_REGIONS);
    for (const k of pieces) number[k] = ++last;
  }

  const map = new Uint16Array(labels.length);
  const x0 = new Int32Array(last + 1).fill(width);
  const x1 = new Int32Array(last + 1).fill(-1);
  const y0 = new Int32Array(last + 1).fill(height);
  const y1 = new Int32Array(last + 1).fill(-1);
  const coreOfRegion = new Int32Array(last + 1);
  const cellsOfLabel = new Int32Array(256);
  const coreOfLabel = new Int32Array(256);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const i = y * width + x;
      if (labels[i] === 0) continue;
      cellsOfLabel[labels[i]]++;
      if (cores[i] !== 0) coreOfLabel[labels[i]]++;
      const n = number[piece[i]];
      if (n === 0) continue;
      map[i] = n;
      if (cores[i] !== 0) coreOfRegion[n]++;
      if (x < x0[n]) x0[n] = x;
      if (x > x1[n]) x1[n] = x;
      if (y < y0[n]) y0[n] = y;
      y1[n] = y;
    }

  const ids = new Set(groups.map((group) => group.id));
  const inks = groups.map((group, g): Ink => {
    let ordinal = 0;
    const regions = listed[g].map((k): Region => {
      // An ink may be called "red-2": the regions of "red" then leave that name out.
      do ordinal++;
      while (ids.has(`${group.id}-${ordinal}`));
      const n = number[k];
      const box: Box = [x0[n], y0[n], x1[n] - x0[n] + 1, y1[n] - y0[n] + 1];
      return {
        id: `${group.id}-${ordinal}`,
        component: n,
        box,
        cells: cells[k],
        coreCells: coreOfRegion[n],
        areaCm2: cells[k] * cm2PerCell,
      };
    });
    return {
      label: g + 1,
      id: group.id,
      kind: group.kind,
      modeLab: group.lab,
      cells: cellsOfLabel[g + 1],
      coreCells: coreOfLabel[g + 1],
      areaCm2: cellsOfLabel[g + 1] * cm2PerCell,
      regions,
    };
  });
  return { inks, components: map };
}
