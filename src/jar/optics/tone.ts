/**
 * From codes of a photo to linear light: undo an S-curve u - amplitude sin(2 pi u) on the codes, decode sRGB, subtract an offset,
 * raise to a power. Identity numbers mean plain sRGB.
 */
export interface Tone {
  /** `srgb`: the greys agree with plain sRGB. `fitted`: they asked for more. `assumed`: no greys, plain sRGB is taken on trust. */
  readonly kind: "srgb" | "fitted" | "assumed";
  readonly amplitude: number;
  readonly gamma: number;
  readonly offset: number;
  /** Largest relative deviation of the greys from the curve, after one gain a channel; NaN when assumed. */
  readonly worstGrey: number;
}

/** The numbers of the curve alone. */
export type Curve = Pick<Tone, "amplitude" | "gamma" | "offset">;
