import { labToXyzD50, xyzD50ToLab } from "../colour/lab.ts";
import type { Triple } from "../numeric/triple.ts";
import type { ModeStatistics } from "./modeStatistics.ts";

/** A colour of which this share of the cells lies on edges has no place of its own. */
const LEAST_EDGE_SHARE = 0.8;
/** It is a mixture when two larger colours make it, in linear light, up to this distance (CIELAB); in so many steps. */
const MOST_OFF = 8;
const STEPS = 15;
/** Its ends hold at least so many times its cells. */
const LARGER = 2;

/** A colour that is none: what two others show of each other along their border. */
export interface EdgeMixture {
  readonly mixture: number;
  readonly ends: readonly [number, number];
}

/**
 * Colours that exist only along the border of two others and lie between them: half yellow and half black is no ink. Line work on paper keeps its colour: it is
 * darker than both its sides and between none.
 * @param labels Label k + 1 for the k-th colour. @param edges 1 on an edge.
 * @returns Numbers of the colours.
 */
export function mixturesAtEdges(
  colours: readonly ModeStatistics[],
  labels: Uint8Array,
  edges: Uint8Array,
): EdgeMixture[] {
  const onEdge = new Int32Array(256);
  for (let i = 0; i < labels.length; i++) if (edges[i] === 1) onEdge[labels[i]]++;
  const suspects = colours
    .map((_, k) => k)
    .filter((k) => colours[k].cells > 0 && onEdge[k + 1] >= LEAST_EDGE_SHARE * colours[k].cells);
  return suspects.flatMap((mixture): EdgeMixture[] => {
    const ends = colours
      .map((_, k) => k)
      .filter((k) => !suspects.includes(k) && colours[k].cells >= LARGER * colours[mixture].cells);
    for (let i = 0; i < ends.length; i++)
      for (let j = i + 1; j < ends.length; j++)
        if (isBetween(colours[mixture].lab, colours[ends[i]].lab, colours[ends[j]].lab))
          return [{ mixture, ends: [ends[i], ends[j]] }];
    return [];
  });
}

function isBetween(lab: Triple, one: Triple, other: Triple): boolean {
  const [from, to] = [labToXyzD50(one), labToXyzD50(other)];
  for (let step = 1; step < STEPS; step++) {
    const t = step / STEPS;
    const mixed = xyzD50ToLab([
      from[0] + t * (to[0] - from[0]),
      from[1] + t * (to[1] - from[1]),
      from[2] + t * (to[2] - from[2]),
    ]);
    if (Math.hypot(mixed[0] - lab[0], mixed[1] - lab[1], mixed[2] - lab[2]) <= MOST_OFF)
      return true;
  }
  return false;
}

/**
 * Gives the cells of mixtures to that of their two colours which they are nearer to.
 * @param labels Changed in place. @param unfit Set to 1 on those cells, in place: they enter no mean.
 */
export function foldMixtures(
  mixtures: readonly EdgeMixture[],
  labels: Uint8Array,
  unfit: Uint8Array,
  isNearerToFirst: (cell: number, ends: EdgeMixture["ends"]) => boolean,
): void {
  if (mixtures.length === 0) return;
  const ends = new Map(mixtures.map((mixed) => [mixed.mixture + 1, mixed.ends]));
  for (let i = 0; i < labels.length; i++) {
    const pair = ends.get(labels[i]);
    if (pair === undefined) continue;
    labels[i] = (isNearerToFirst(i, pair) ? pair[0] : pair[1]) + 1;
    unfit[i] = 1;
  }
}
