/**
 * Usual solids of the four printing inks of old letterpress and offset covers: reflectance over that of the paper in the SOFT bands.
 *
 * Where the figures come from: means of measured solids (published characterizations of presses on newsprint, uncoated and coated stock)
 * and of simulated inks. Inks on a sheet that gets darker are laid deeper: every exponent is the change of ln T per unit of the
 * darkness of the sheet beyond that of a usual one. Errors of a single press, rms in ln T: yellow 0.04 0.05 0.09, red 0.11 0.14
 * 0.31, blue 0.19 0.18 0.08, black 0.2.
 */

/** Darkness (minus mean ln T of the darkest places) at which the solids are those of `atUsual`. */
export const USUAL_DARKNESS = 2.75;

/** How far from {@link USUAL_DARKNESS} the solids follow the darkness of a sheet. */
export const DARKNESS_RANGE = [-0.7, 1.6] as const;

export interface PlateSolid {
  readonly id: string;
  /** Whether the ink is a black: its loss is hardly ever known. */
  readonly black: boolean;
  /** T of the bands r, g, b on a sheet of usual darkness. */
  readonly atUsual: readonly [number, number, number];
  /** Fall of ln T per unit of darkness, bands r, g, b. */
  readonly deeper: readonly [number, number, number];
}

export const PLATE_SOLIDS: readonly PlateSolid[] = [
  { id: "yellow", black: false, atUsual: [0.93, 0.77, 0.37], deeper: [0, 0, 0.15] },
  { id: "red", black: false, atUsual: [0.55, 0.22, 0.18], deeper: [0.1, 0.33, 0.22] },
  { id: "blue", black: false, atUsual: [0.155, 0.35, 0.64], deeper: [0.38, 0.1, 0.05] },
  { id: "black", black: true, atUsual: [0.075, 0.075, 0.08], deeper: [0.78, 0.78, 0.78] },
];
