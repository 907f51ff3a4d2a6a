import type { Triple } from "../../src/numeric/triple.ts";

/** A 24-patch card, square to the frame. */
export interface ChartInScene {
  /** Centre of the first patch, pixels. */
  readonly first: readonly [number, number];
  readonly pitchPixels: number;
}

/** Black frame of the card. */
const GROUND = 0.035;
const PATCH_SHARE = 0.86;

/**
 * Paints the card over a linear picture.
 * @param linear Interleaved R G B; changed in place.
 * @param colours Linear colour of each patch in even light, row-major.
 * @param gradient Change of the light across the frame, along x and y.
 */
export function paintChart(
  linear: Float32Array,
  { width, height }: { readonly width: number; readonly height: number },
  { first, pitchPixels: pitch }: ChartInScene,
  colours: readonly Triple[],
  [gradientX, gradientY]: readonly [number, number],
): void {
  const left = Math.max(0, Math.round(first[0] - 0.7 * pitch));
  const right = Math.min(width, Math.round(first[0] + 5.7 * pitch));
  const top = Math.max(0, Math.round(first[1] - 0.7 * pitch));
  const bottom = Math.min(height, Math.round(first[1] + 3.7 * pitch));
  for (let y = top; y < bottom; y++)
    for (let x = left; x < right; x++) {
      const column = Math.round((x - first[0]) / pitch);
      const row = Math.round((y - first[1]) / pitch);
      const onPatch =
        column >= 0 &&
        column < 6 &&
        row >= 0 &&
        row < 4 &&
        Math.abs(x - first[0] - column * pitch) < (PATCH_SHARE * pitch) / 2 &&
        Math.abs(y - first[1] - row * pitch) < (PATCH_SHARE * pitch) / 2;
      const light = 1 + gradientX * (x / width - 0.5) + gradientY * (y / height - 0.5);
      for (let c = 0; c < 3; c++)
        linear[3 * (y * width + x) + c] = light * (onPatch ? colours[6 * row + column][c] : GROUND);
    }
}
