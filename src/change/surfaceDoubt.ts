import type { Surface } from "../print/expectUntouched.ts";

/** Surfaces that an ink part has to hold for. */
export interface SurfaceDoubt {
  /** The likeliest, for the figure itself. */
  readonly likely: Surface;
  /** All that may be, for its interval; at least one. */
  readonly possible: readonly Surface[];
}

/** Ink and paper one mixture, gloss kept: newsprint. */
export const MIXTURE: SurfaceDoubt = {
  likely: { film: 0, gloss: 0 },
  possible: [{ film: 0, gloss: 0 }],
};
