import type { Surface } from "../print/expectUntouched.ts";

/** A surface that may be, and its share of the belief. */
export interface WeighedSurface extends Surface {
  /** All weights together are 1. */
  readonly weight: number;
}

/** Surfaces that an ink part has to hold for. */
export interface SurfaceDoubt {
  /** For the figure itself. */
  readonly likely: Surface;
  /** For its interval; at least one. */
  readonly possible: readonly WeighedSurface[];
}

/** Ink and paper one mixture, gloss kept: newsprint. */
export const MIXTURE: SurfaceDoubt = {
  likely: { film: 0, gloss: 0 },
  possible: [{ film: 0, gloss: 0, weight: 1 }],
};
