/**
 * The printed backing of the jar: an A4 sheet across, seen past both sides of the jar. Millimetres, x right, y down from the
 * sheet's top-left corner. The two stripe periods (10 and 3 mm) are those for which the optics were worked out: absorption lowers
 * both contrasts alike, forward scattering blurs only the fine one. Horizontal stripes only: a round jar acts sideways as a lens.
 * Wide and narrow zones alternate so that any 60 mm of liquid shows both.
 */
export const JAR_BACKING = {
  title: "Jar backing",
  edition: 1,
  widthMm: 297,
  heightMm: 210,
  /** Outer side of the nested squares. */
  fiducialMm: 10,
  /** Clockwise from the top left, which is the origin: the only one with a hole. */
  fiducialsMm: [
    [15, 15],
    [282, 15],
    [282, 195],
    [15, 195],
  ],
  stripesLeftMm: 24,
  stripesRightMm: 273,
  widePeriodMm: 10,
  narrowPeriodMm: 3,
  /** Downwards; each begins with a white stripe, holds whole periods and ends with a black one. */
  zones: [
    { kind: "wide", fromMm: 26, toMm: 66 },
    { kind: "narrow", fromMm: 66, toMm: 84 },
    { kind: "wide", fromMm: 84, toMm: 124 },
    { kind: "narrow", fromMm: 124, toMm: 142 },
    { kind: "wide", fromMm: 142, toMm: 182 },
  ],
} as const satisfies JarBacking;

export interface JarBacking {
  readonly title: string;
  readonly edition: number;
  readonly widthMm: number;
  readonly heightMm: number;
  readonly fiducialMm: number;
  readonly fiducialsMm: readonly (readonly [number, number])[];
  readonly stripesLeftMm: number;
  readonly stripesRightMm: number;
  readonly widePeriodMm: number;
  readonly narrowPeriodMm: number;
  readonly zones: readonly {
    readonly kind: "wide" | "narrow";
    readonly fromMm: number;
    readonly toMm: number;
  }[];
}
