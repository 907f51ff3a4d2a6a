import { BAND_COUNT, BAND_FIRST_NM, BAND_STEP_NM } from "../../calibration/colourants.ts";
import { xyzD50ToLab } from "../../src/colour/lab.ts";
import { reflectanceToXyzD50 } from "../../src/colour/spectrum.ts";
import { fitSmooth } from "../../src/numeric/fitSmooth.ts";
import { seededRandom } from "../../src/numeric/random.ts";
import type { Triple } from "../../src/numeric/triple.ts";

/**
 * Measured solids of printing presses, XYZ D50 with Y = 100 for the diffuser, and how their inks lie (0 mixture, 1 film: as the
 * overprints of each press tell). Source: ANSI CGATS/SNAP TR 002-2007 (coldset newsprint), CGATS TR 003-2007, TR 005-2007 and TR 006-2007 (coated grades 3, 5
 * and 1; derivative work may be distributed); FOGRA30L 2003 (uncoated yellowish), FOGRA40L 2006 (super-calendered), FOGRA28L 2003 (light-weight
 * coated), FOGRA39L 2006 (coated), all FOGRA, www.fogra.org.
 */
export const PRESSES = {
  newsprint: {
    film: 0,
    paper: [54.77, 56.8, 43.96],
    solids: {
      yellow: [47.34, 50.66, 12.07],
      red: [30.21, 20.55, 17.31],
      blue: [18.71, 24.5, 35.94],
      black: [9.24, 9.37, 6.7],
      orange: [27.51, 19.19, 8.29],
      green: [13.84, 20.9, 11.26],
      violet: [11.52, 11.1, 17.18],
    },
  },
  uncoated: {
    film: 0.12,
    paper: [86.21, 89.84, 69.76],
    solids: {
      yellow: [71.36, 74.51, 10.56],
      red: [35.25, 21.09, 15.51],
      blue: [19.49, 26, 48.75],
      black: [5.96, 6.01, 4.57],
      orange: [31.64, 19.3, 6.44],
      green: [11.78, 18.96, 9.75],
      violet: [10.53, 9.82, 15.41],
    },
  },
  supercalendered: {
    film: 0.56,
    paper: [71.81, 74.48, 56.85],
    solids: {
      yellow: [59.21, 61.68, 6.15],
      red: [30.43, 16.49, 14.68],
      blue: [15.23, 22.89, 42.72],
      black: [3.57, 3.63, 2.69],
      orange: [28.25, 15.78, 3.27],
      green: [9.01, 17.55, 6.69],
      violet: [6.31, 5.39, 15.61],
    },
  },
  lightCoated: {
    film: 0.66,
    paper: [78.26, 81.53, 65.62],
    solids: {
      yellow: [63.93, 67.65, 5.74],
      red: [30.14, 15.43, 13.33],
      blue: [15.1, 23.39, 48.86],
      black: [2.38, 2.44, 1.98],
      orange: [28.22, 15.25, 2.49],
      green: [8.01, 17.21, 4.77],
      violet: [5.78, 4.52, 14.69],
    },
  },
  coatedGrade5: {
    film: 0.79,
    paper: [73.68, 76.42, 58.88],
    solids: {
      yellow: [61.92, 66.85, 7.58],
      red: [31.48, 16.52, 14.99],
      blue: [16.01, 24.48, 47.22],
      black: [2.7, 2.75, 2.14],
      orange: [29.73, 16.35, 3.05],
      green: [9.73, 20.38, 7.75],
      violet: [6.35, 4.93, 15.83],
    },
  },
  coatedGrade3: {
    film: 0.9,
    paper: [78.9, 81.83, 67.53],
    solids: {
      yellow: [67.12, 72, 7.81],
      red: [32.3, 16.67, 14.95],
      blue: [16.46, 24.91, 51.39],
      black: [2.44, 2.53, 2.1],
      orange: [29.57, 15.91, 2.62],
      green: [9.25, 20.25, 8.19],
      violet: [6.44, 5.04, 17.04],
    },
  },
  coatedGrade1: {
    film: 1,
    paper: [84.47, 87.62, 74.52],
    solids: {
      yellow: [69.04, 74.04, 6.97],
      red: [32.98, 16.74, 14.97],
      blue: [14.97, 22.89, 52.78],
      black: [1.84, 1.9, 1.58],
      orange: [30.69, 16.3, 2.28],
      green: [7.84, 18.52, 7.27],
      violet: [5.31, 4.14, 15.82],
    },
  },
} as const satisfies Record<string, Press>;

interface Press {
  readonly film: number;
  readonly paper: Triple;
  readonly solids: Readonly<Record<string, Triple>>;
}

/** What printed the colour of a solid. */
const PLATES: Readonly<Record<string, readonly string[]>> = {
  yellow: ["yellow"],
  red: ["red"],
  blue: ["blue"],
  black: ["black"],
  orange: ["yellow", "red"],
  green: ["yellow", "blue"],
  violet: ["red", "blue"],
};

export interface PressSheetOptions {
  readonly press: keyof typeof PRESSES;
  readonly seed: number;
  /** Light that the washed surface scatters more, as a share of the diffuser's. Default 0. */
  readonly gloss?: number;
  /** Share of an ink's colourant that went. Default nothing. */
  readonly loss?: Readonly<Record<string, number>>;
  /** Half the solids come as half-tone, too. */
  readonly tints?: boolean;
  /** How the inks lie, where not as on the press. */
  readonly film?: number;
}

export interface SheetColour {
  readonly id: string;
  readonly labBefore: Triple;
  readonly labAfter: Triple;
  /** Whether anything that prints it lost colourant. */
  readonly lost: boolean;
}

const nm = (i: number): number => BAND_FIRST_NM + i * BAND_STEP_NM;
const overBands = (value: (wave: number) => number): Float64Array =>
  Float64Array.from({ length: BAND_COUNT }, (_, i) => value(nm(i)));
const bell = (wave: number, centre: number, width: number): number =>
  Math.exp(-0.5 * ((wave - centre) / width) ** 2);
/** Absorptions that the model under test does not use: bells, not blocks. */
const BELLS = [
  overBands((wave) => bell(wave, 440, 42)),
  overBands((wave) => bell(wave, 545, 38)),
  overBands((wave) => bell(wave, 640, 52)),
];

function fitXyz(
  spectrum: (at: ArrayLike<number>) => Float64Array,
  xyz: Triple,
  start: readonly number[],
): Float64Array {
  const { parameters } = fitSmooth(
    (at, out) => {
      const model = reflectanceToXyzD50(spectrum(at));
      for (let c = 0; c < 3; c++) out[c] = Math.log((100 * model[c]) / xyz[c]);
    },
    3,
    start,
  );
  return spectrum(parameters);
}

const toQ = (R: number): number => (1 - R) ** 2 / (2 * R);
const fromQ = (q: number): number => 1 + q - Math.sqrt(q * q + 2 * q);

/**
 * Washed sheets of a measured press, colour by colour: smooth spectra that meet the measured solids, on paper that had browned and comes cleaner. An
 * ink is a mixture with its paper after Kubelka and Munk (opaque), a clear film that multiplies, or the share between (of logarithms).
 * Yellowing, its slope, what washing takes, and 0.1 of noise in each of Lab come from the seed.
 * @returns The bare paper first.
 */
export function pressSheet(options: PressSheetOptions): SheetColour[] {
  const { press, seed, gloss = 0, loss = {}, tints = false } = options;
  const { paper, solids, film: usual } = PRESSES[press] as Press;
  const film = options.film ?? usual;
  const random = seededRandom(seed);
  const between = (low: number, high: number): number => low + (high - low) * random.uniform();
  const white = fitXyz(
    (at) =>
      overBands((wave) => {
        const x = (wave - 550) / 150;
        return Math.exp(at[0] + at[1] * x + at[2] * x * x);
      }),
    paper,
    [-0.3, 0.1, 0],
  );
  const slope = between(0.009, 0.015);
  const brown = overBands((wave) => Math.exp(-slope * (wave - 450)));
  const browning = between(0.15, 0.4);
  const taken = between(0.25, 0.6);
  const grime = between(0, 0.04);
  const paperOf = (washed: boolean): Float64Array =>
    white.map((R, i) => R * Math.exp(-(washed ? 1 - taken : 1) * (browning * brown[i] + grime)));
  const [before, after] = [paperOf(false), paperOf(true)];
  const noisy = (lab: Triple): Triple => [
    lab[0] + 0.07 * random.normal(),
    lab[1] + 0.07 * random.normal(),
    lab[2] + 0.07 * random.normal(),
  ];
  const labOf = (R: Float64Array): Triple => xyzD50ToLab(reflectanceToXyzD50(R));
  const dull = (R: Float64Array): Float64Array => R.map((value) => value + gloss);
  const sheet: SheetColour[] = [
    {
      id: "paper",
      labBefore: noisy(labOf(before)),
      labAfter: noisy(labOf(dull(after))),
      lost: false,
    },
  ];
  for (const [id, xyz] of Object.entries(solids)) {
    const printed = fitXyz(
      (at) =>
        white.map(
          (R, i) => R * Math.exp(-BELLS.reduce((sum, e, j) => sum + at[j] * at[j] * e[i], 0)),
        ),
      xyz,
      [0.8, 0.8, 0.8],
    );
    const left = 1 - Math.max(...PLATES[id].map((plate) => loss[plate] ?? 0));
    const on = (ground: Float64Array, share: number): Float64Array =>
      ground.map((R, i) => {
        const mixture = fromQ(toQ(R) + share * (toQ(printed[i]) - toQ(white[i])));
        const clear = R * (printed[i] / white[i]) ** share;
        return mixture ** (1 - film) * clear ** film;
      });
    const [solidBefore, solidAfter] = [on(before, 1), on(after, left)];
    const add = (name: string, c: number): void => {
      const mix = (ground: Float64Array, solid: Float64Array): Float64Array =>
        ground.map((R, i) => c * solid[i] + (1 - c) * R);
      sheet.push({
        id: name,
        labBefore: noisy(labOf(mix(before, solidBefore))),
        labAfter: noisy(labOf(dull(mix(after, solidAfter)))),
        lost: left < 1,
      });
    };
    add(id, 1);
    if (tints && PLATES[id].length === 1) add(`${id} tint`, between(0.3, 0.7));
  }
  return sheet;
}
