import { xyzD50ToLab } from "../../src/colour/lab.ts";
import { reflectanceToXyzD50 } from "../../src/colour/spectrum.ts";
import type { Triple } from "../../src/numeric/triple.ts";
import { layerReflectance } from "./layerReflectance.ts";
import { INKS } from "./plates.ts";
import type { Ink } from "./plates.ts";

/** 400 to 700 nm by 10. */
export const WAVELENGTHS_NM: readonly number[] = Array.from({ length: 31 }, (_, i) => 400 + 10 * i);

/** Scattering power of the whole sheet: newsprint, science of Kubelka and Munk; 2.75 is opaque, with some show-through. */
const SHEET_SCATTERING = 2.75;
/** Share of the sheet, from its face, in which the ink lies: common practice for letterpress on soft paper, no source. */
const INK_DEPTH = 0.16;
/** Light turned back at the inner face of the paper-air boundary, diffuse: Saunderson's correction, rounded. */
const INTERNAL_REFLECTION = 0.2;

/** Aged groundwood before washing, CIELAB L* and b* D50; a* follows from the shape of the two absorptions. */
const AGED_PAPER: { readonly L: number; readonly b: number } = { L: 78, b: 19 };
/** Fall of the absorption of yellowed lignin with wavelength, per nm. */
const YELLOWING_SLOPE = 0.0125;
/** Grey-brown dirt falls more slowly. */
const GRIME_SLOPE = 0.004;
/** Absorption of the loose grime film of a clean-looking sheet before washing, in units of K times thickness. */
const GRIME = 0.012;

/**
 * Absorption of each ink, peak 1. Widths and centres of the usual classes (transparent yellow, a lithol-like red, a peacock-like
 * blue, carbon): shaped by hand for this scene.
 */
const INK_ABSORPTION: Readonly<Record<Ink, (nm: number) => number>> = {
  yellow: (nm) => bell(nm, 425, 40, 48) + 0.01,
  red: (nm) => 0.98 * bell(nm, 525, 62, 38) + 0.3 * bell(nm, 410, 40, 60) + 0.01,
  blue: (nm) => 0.97 * bell(nm, 635, 68, 60) + 0.12 * bell(nm, 400, 30, 45) + 0.02,
  black: (nm) => 1 - 0.0006 * (nm - 400),
};

/** Amount of each ink in a solid, as transmission density at its peak. */
const INK_DENSITY: Readonly<Record<Ink, number>> = {
  yellow: 0.46,
  red: 0.52,
  blue: 0.5,
  black: 1.1,
};

function bell(nm: number, centre: number, widthBelow: number, widthAbove: number): number {
  const u = (nm - centre) / (nm < centre ? widthBelow : widthAbove);
  return Math.exp(-(u * u) / 2);
}

/** What stains or ages the paper at a place, beyond its even yellowing. Order of the condition weights of a sheet. */
export const CONDITIONS = [
  "even",
  "toned",
  "soiled",
  "foxed",
  "tide",
  "uncleaned",
  "bleed",
] as const;
export type Condition = (typeof CONDITIONS)[number];

/** What washing changed. */
export interface Washing {
  /** Share of the yellowing that went, 0..1. */
  readonly yellowingRemoved: number;
  /** Share of grime, soil and foxing that went, 0..1. */
  readonly soilRemoved: number;
  /** Share of each ink's amount that went, 0..1. */
  readonly inkLoss: Readonly<Record<Ink, number>>;
  /** Share of black solids covered by a white haze, 0..1: sinking ink or calcium bloom. */
  readonly dullBlack: number;
  /** The ink that bled into bare paper, null for none. */
  readonly bleedingInk: Ink | null;
}

/** The sheet as it was found. */
export const UNWASHED: Washing = {
  yellowingRemoved: 0,
  soilRemoved: 0,
  inkLoss: { yellow: 0, red: 0, blue: 0, black: 0 },
  dullBlack: 0,
  bleedingInk: null,
};

function surface(R: number): number {
  return ((1 - INTERNAL_REFLECTION) * R) / (1 - INTERNAL_REFLECTION * R);
}

interface PaperAbsorption {
  readonly fibre: number;
  readonly yellowing: number;
}

/** K times thickness of the whole sheet. */
function paperK(
  nm: number,
  paper: PaperAbsorption,
  condition: Condition,
  washing: Washing,
): number {
  const washed = condition === "uncleaned" ? UNWASHED : washing;
  const yellow = Math.exp(-YELLOWING_SLOPE * (nm - 450));
  const brown = Math.exp(-GRIME_SLOPE * (nm - 550));
  const yellowingLeft = 1 - washed.yellowingRemoved;
  const soilLeft = 1 - washed.soilRemoved;
  let K = paper.fibre + paper.yellowing * yellow * yellowingLeft + GRIME * brown * soilLeft;
  if (condition === "toned") K += (0.22 * yellow + 0.03 * brown) * (0.4 + 0.6 * yellowingLeft);
  else if (condition === "soiled") K += 0.4 * brown * soilLeft;
  else if (condition === "foxed") K += (yellow + 0.14 * brown) * (0.5 + 0.5 * soilLeft);
  else if (condition === "tide") K += 0.6 * yellow + 0.15 * brown;
  return K;
}

/** A place of a sheet. */
interface SheetPlace {
  readonly paper: PaperAbsorption;
  readonly condition: Condition;
  readonly washing: Washing;
  readonly overprint: number;
  readonly backing: number;
}

function sheetReflectance(
  nm: number,
  { paper, condition, washing, overprint, backing }: SheetPlace,
): number {
  const K = paperK(nm, paper, condition, washing);
  const below = layerReflectance(K * (1 - INK_DEPTH), SHEET_SCATTERING * (1 - INK_DEPTH), backing);
  let top = K * INK_DEPTH;
  INKS.forEach((ink, j) => {
    if ((overprint >> j) & 1)
      top +=
        2 * Math.LN10 * INK_DENSITY[ink] * (1 - washing.inkLoss[ink]) * INK_ABSORPTION[ink](nm);
  });
  if (condition === "bleed" && washing.bleedingInk !== null)
    top += 2 * Math.LN10 * 0.12 * INK_ABSORPTION[washing.bleedingInk](nm);
  const R = surface(layerReflectance(top, SHEET_SCATTERING * INK_DEPTH, below));
  const hazed = ((overprint >> 3) & 1) === 1 ? washing.dullBlack : 0;
  return R + hazed * (0.45 - R);
}

/** CIELAB D50 of a reflectance at {@link WAVELENGTHS_NM}. */
export function labOfReflectance(reflectance: ArrayLike<number>): Triple {
  return xyzD50ToLab(reflectanceToXyzD50(reflectance));
}

/** Fibre and yellowing of the unwashed sheet from L* and b* of {@link AGED_PAPER}, by Newton's rule. */
function fitPaper(backing: number): PaperAbsorption {
  const labOf = (paper: PaperAbsorption): Triple =>
    labOfReflectance(
      WAVELENGTHS_NM.map((nm) =>
        sheetReflectance(nm, {
          paper,
          condition: "even",
          washing: UNWASHED,
          overprint: 0,
          backing,
        }),
      ),
    );
  let fibre = 0.05;
  let yellowing = 0.2;
  for (let round = 0; round < 30; round++) {
    const here = labOf({ fibre, yellowing });
    const alongFibre = labOf({ fibre: fibre + 1e-5, yellowing });
    const alongYellow = labOf({ fibre, yellowing: yellowing + 1e-5 });
    const a = (alongFibre[0] - here[0]) / 1e-5;
    const b = (alongYellow[0] - here[0]) / 1e-5;
    const c = (alongFibre[2] - here[2]) / 1e-5;
    const d = (alongYellow[2] - here[2]) / 1e-5;
    const rL = AGED_PAPER.L - here[0];
    const rB = AGED_PAPER.b - here[2];
    const determinant = a * d - b * c;
    fibre = Math.max(1e-4, fibre + (d * rL - b * rB) / determinant);
    yellowing = Math.max(1e-4, yellowing + (a * rB - c * rL) / determinant);
  }
  return { fibre, yellowing };
}

/**
 * Reflectances of every overprint on every kind of paper (the primaries of Neugebauer): a two-layer sheet after Kubelka and Munk,
 * ink in the top share, over a backing.
 * @param washing The state; {@link UNWASHED} before treatment.
 * @param backing Reflectance of what lies behind the sheet on the scanner, 0..1.
 * @returns [condition][overprint][wavelength]; the overprint's bits 1, 2, 4, 8 are yellow, red, blue, black.
 */
export function sheetPrimaries(washing: Washing, backing: number): number[][][] {
  const paper = fitPaper(backing);
  return CONDITIONS.map((condition) =>
    Array.from({ length: 16 }, (_, overprint) =>
      WAVELENGTHS_NM.map((nm) =>
        sheetReflectance(nm, { paper, condition, washing, overprint, backing }),
      ),
    ),
  );
}
