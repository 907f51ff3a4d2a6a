import type { RegionMap } from "./regionMap.ts";

/** Every cell of an ink, in ascending order; the flags run beside. */
export interface InkCells {
  readonly cells: Int32Array;
  /** Not 0 where the cell may hold colour of something else: on an edge, off its ink's colour, beside a stranger that was folded in. */
  readonly mixed: Uint8Array;
  /** 1 where it lies 1 mm inside its area and is not mixed. */
  readonly core: Uint8Array;
}

/**
 * All cells of every ink and of the paper, not its cores alone, so that a mean can weigh them by what a place is worth.
 * @param usable Cells with 0 are left out.
 * @returns By label; labels without cells are absent.
 */
export function cellsOfInks(
  { labels, cores, mixed }: Pick<RegionMap, "labels" | "cores" | "mixed">,
  usable: Uint8Array,
): Map<number, InkCells> {
  const counts = new Int32Array(256);
  for (let i = 0; i < labels.length; i++) if (usable[i] !== 0) counts[labels[i]]++;
  const inks = new Map<number, InkCells>();
  for (let label = 1; label < 256; label++)
    if (counts[label] > 0)
      inks.set(label, {
        cells: new Int32Array(counts[label]),
        mixed: new Uint8Array(counts[label]),
        core: new Uint8Array(counts[label]),
      });
  const filled = new Int32Array(256);
  for (let i = 0; i < labels.length; i++) {
    const ink = usable[i] === 0 ? undefined : inks.get(labels[i]);
    if (ink === undefined) continue;
    const at = filled[labels[i]]++;
    ink.cells[at] = i;
    ink.mixed[at] = mixed[i];
    ink.core[at] = cores[i] !== 0 ? 1 : 0;
  }
  return inks;
}
