import type { CardPlacement } from "./cardFace.ts";
import type { FrameSize, RowPainter } from "./frame.ts";
import { framePixels } from "./frame.ts";
import { paintCard } from "./paintCard.ts";
import { paintSheet } from "./paintSheet.ts";
import type { LaidSheet } from "./paintSheet.ts";
import type { Observer } from "./scanner.ts";

/** What a scanner sees. */
export interface FrameScene extends FrameSize {
  /** Reflectance of the backing, neutral. */
  readonly bed: number;
  readonly sheet: LaidSheet | null;
  readonly card: CardPlacement | null;
}

/**
 * Paints a frame in linear light.
 * @param observer What the three numbers of a pixel mean: the scanner's R G B, or X Y Z for a test.
 * @returns A function that overwrites `row` (3 * width) with the pixels of row y: means over the pixel's area, no noise, no blur.
 */
export function framePainter(scene: FrameScene, observer: Observer): RowPainter {
  const bed = observer(new Array<number>(31).fill(scene.bed));
  const painters: RowPainter[] = [];
  if (scene.sheet !== null) painters.push(paintSheet(scene, scene.sheet, observer));
  if (scene.card !== null) painters.push(paintCard(scene, scene.card, observer));
  const empty = Float32Array.from({ length: 3 * framePixels(scene)[0] }, (_, i) => bed[i % 3]);
  return (y, row) => {
    row.set(empty);
    for (const painter of painters) painter(y, row);
  };
}
