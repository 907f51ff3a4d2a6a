import {
  type Colourant,
  DYE_SHIFT_NM,
  SOIL_SLOPE_RANGE_PER_NM,
} from "../../calibration/colourants.ts";
import type { Triple } from "../numeric/triple.ts";
import { type Constraint, maximise } from "../numeric/linearProgram.ts";
import { linspace } from "../numeric/linspace.ts";
import { weakResponse } from "../print/bandAbsorbance.ts";
import type { Palette, PaletteInk } from "./palette.ts";
import type { BathReading } from "./reading.ts";
import { colourantSpectrum, soilSpectrum } from "../print/spectra.ts";
import { weakLimit } from "./weakLimit.ts";

export type Interval = readonly [low: number, high: number];

/** Evidence and photo don't go together: what had to give for any answer at all. */
export interface Contradiction {
  /** Inks whose "fast" had to be dropped; empty where no ink on the cover explains the colour. */
  readonly inks: readonly string[];
  /** Least amount of those inks together, peak absorbance per cm. */
  readonly neededPerCm: number;
  /** Width in sigma at which the known colourants explain the photo. */
  readonly sigmas: number;
}

export interface PossibleShare {
  /** Share of ink in the absorption, summed over the bands: everything the evidence leaves open. */
  readonly share: Interval;
  /** Peak absorbance per cm, by ink id and "soil". */
  readonly amounts: ReadonlyMap<string, Interval>;
  readonly contradiction: Contradiction | null;
}

/** Width of the possible interval in sigma, and what it is widened to once before a contradiction is called. */
const SIGMAS = 2;
const WIDENED_SIGMAS = 3;
const SOIL_SLOPES = 5;
/** A share is asked of mixes that absorb at least this part of the reading: the share of nothing has no meaning, and no bound. */
const LEAST_ABSORPTION = 1e-4;
/** A contradicted photo is solved a hair inside the least width that explains it. */
const SLACK = 1.01;

interface Column {
  readonly ink: string | null;
  readonly response: Triple;
}

/**
 * Everything a reading may mean: extreme shares and amounts over all mixes of soil (any published brown) and the admitted inks (each peak
 * shifted by up to 6 nm) that meet the photo within two sigma and the blotter evidence.
 * @param reading At high density it is first brought to the weak limit, its doubt added.
 * @see The fractional program by Charnes & Cooper, Naval Res. Logist. 9, 181 (1962).
 */
export function possibleShare(reading: BathReading, palette: Palette): PossibleShare {
  const columns = columnsOf(palette);
  const weak = weakLimit(reading, palette);
  const attempt = (inks: readonly PaletteInk[], sigmas: number): PossibleShare | null =>
    solve(columns, weak, inks, sigmas, null);
  const found = attempt(palette.inks, SIGMAS) ?? attempt(palette.inks, WIDENED_SIGMAS);
  if (found !== null) return found;

  const unbound = (dropped: (ink: PaletteInk) => boolean) =>
    palette.inks.map((ink) => (dropped(ink) ? { ...ink, boundPerCm: null } : ink));
  const fast = palette.inks.filter(({ boundPerCm }) => boundPerCm !== null);
  let best: PossibleShare | null = null;
  for (const suspect of fast) {
    const inks = unbound(({ id }) => id === suspect.id);
    const neededPerCm = leastAmount(columns, weak, inks, [suspect.id], SIGMAS);
    if (neededPerCm === null || neededPerCm >= (best?.contradiction?.neededPerCm ?? Infinity))
      continue;
    best = solve(columns, weak, inks, SIGMAS, { inks: [suspect.id], neededPerCm, sigmas: SIGMAS });
  }
  if (best !== null) return best;

  const all = unbound(() => true);
  const ids = fast.map(({ id }) => id);
  const together = leastAmount(columns, weak, all, ids, SIGMAS);
  if (fast.length > 0 && together !== null) {
    const contradiction = { inks: ids, neededPerCm: together, sigmas: SIGMAS };
    const relaxed = solve(columns, weak, all, SIGMAS, contradiction);
    if (relaxed !== null) return relaxed;
  }
  const sigmas = SLACK * leastSigmas(columns, weak);
  const none = { inks: [], neededPerCm: 0, sigmas };
  return (
    solve(columns, weak, all, sigmas, none) ?? {
      share: [0, 1],
      amounts: new Map(["soil", ...all.map(({ id }) => id)].map((id) => [id, [0, unitOf(weak)]])),
      contradiction: none,
    }
  );
}

function columnsOf({ inks, ownSoil, silt }: Palette): readonly Column[] {
  const columns: Column[] = [];
  if (ownSoil === null) {
    const [least, most] = SOIL_SLOPE_RANGE_PER_NM;
    for (const slope of linspace(least, most, SOIL_SLOPES))
      columns.push({ ink: null, response: weakResponse(soilSpectrum(slope)) });
  } else
    for (const by of [-2, 0, 2]) {
      const slope = ownSoil.slopePerNm + by * ownSoil.slopeSdPerNm;
      const [r, g, b] = weakResponse(soilSpectrum(slope));
      const [gr, gg, gb] = ownSoil.gains;
      columns.push({ ink: null, response: [r * gr, g * gg, b * gb] });
    }
  if (silt) columns.push({ ink: null, response: weakResponse(colourantSpectrum("silt")) });
  for (const { id, colourants, alternatives } of inks)
    for (const colourant of [...colourants, ...alternatives])
      for (const shift of shiftsOf(colourant))
        columns.push({ ink: id, response: weakResponse(colourantSpectrum(colourant, shift)) });
  return columns;
}

const shiftsOf = (colourant: Colourant): readonly number[] =>
  colourant === "carbon" || colourant === "silt" ? [0] : [-DYE_SHIFT_NM, 0, DYE_SHIFT_NM];

/** Programs are solved in units of the reading, so that their numbers are near 1. */
function unitOf({ absorbancePerCm, absorbanceSigma }: BathReading): number {
  return Math.max(...absorbancePerCm.map(Math.abs), ...absorbanceSigma);
}

/** |M x - y| <= z sigma and the bounds of fast inks; the last variable t scales y, sigma and bounds (1 in the plain program). */
function rows(
  columns: readonly Column[],
  reading: BathReading,
  inks: readonly PaletteInk[],
  sigmas: number,
): readonly Constraint[] {
  const unit = unitOf(reading);
  const constraints: Constraint[] = [];
  for (let c = 0; c < 3; c++) {
    const y = reading.absorbancePerCm[c] / unit;
    const reach = (sigmas * reading.absorbanceSigma[c]) / unit;
    const M = columns.map(({ response }) => response[c]);
    constraints.push(
      { coefficients: [...M, -(y + reach)], kind: "at-most", bound: 0 },
      { coefficients: [...M.map((m) => -m), y - reach], kind: "at-most", bound: 0 },
    );
  }
  for (const { id, boundPerCm } of inks)
    if (boundPerCm !== null)
      constraints.push({
        coefficients: [...columns.map(({ ink }) => (ink === id ? 1 : 0)), -boundPerCm / unit],
        kind: "at-most",
        bound: 0,
      });
  return constraints;
}

function solve(
  columns: readonly Column[],
  reading: BathReading,
  inks: readonly PaletteInk[],
  sigmas: number,
  contradiction: Contradiction | null,
): PossibleShare | null {
  const constraints = rows(columns, reading, inks, sigmas);
  const visible: Constraint = {
    coefficients: [...columns.map(() => 0), 1],
    kind: "at-most",
    bound: 1 / LEAST_ABSORPTION,
  };
  const weights = columns.map(({ response: [r, g, b] }) => r + g + b);
  const whole: Constraint = { coefficients: [...weights, 0], kind: "exactly", bound: 1 };
  const ofInk = columns.map(({ ink }, j) => (ink === null ? 0 : weights[j]));
  const share = extremes(ofInk, [...constraints, visible, whole]);
  if (share === null) return null;
  const unit = unitOf(reading);
  const once: Constraint = {
    coefficients: [...columns.map(() => 0), 1],
    kind: "exactly",
    bound: 1,
  };
  const amounts = new Map<string, Interval>();
  for (const id of [null, ...inks.map((ink) => ink.id)]) {
    const sum = columns.map(({ ink }) => (ink === id ? 1 : 0));
    const range = extremes(sum, [...constraints, once]);
    // Feasible for the share but not for amounts happens at rounding only: then nothing is known of it.
    amounts.set(id ?? "soil", range === null ? [0, unit] : [range[0] * unit, range[1] * unit]);
  }
  return { share: [Math.min(1, share[0]), Math.min(1, share[1])], amounts, contradiction };
}

/** Least and largest value of a sum over the columns; null where the constraints exclude each other. */
function extremes(sum: readonly number[], constraints: readonly Constraint[]): Interval | null {
  const high = maximise([...sum, 0], constraints);
  const low = maximise([...sum.map((value) => -value), 0], constraints);
  if (high.status !== "optimal" || low.status !== "optimal") return null;
  return [Math.max(0, -low.value), Math.max(0, high.value)];
}

function leastAmount(
  columns: readonly Column[],
  reading: BathReading,
  inks: readonly PaletteInk[],
  ids: readonly string[],
  sigmas: number,
): number | null {
  const once: Constraint = {
    coefficients: [...columns.map(() => 0), 1],
    kind: "exactly",
    bound: 1,
  };
  const sum = columns.map(({ ink }) => (ink !== null && ids.includes(ink) ? -1 : 0));
  const least = maximise([...sum, 0], [...rows(columns, reading, inks, sigmas), once]);
  return least.status === "optimal" ? -least.value * unitOf(reading) : null;
}

/** Smallest z at which some mix of all columns meets |M x - y| <= z sigma. */
function leastSigmas(columns: readonly Column[], reading: BathReading): number {
  const unit = unitOf(reading);
  const constraints: Constraint[] = [];
  for (let c = 0; c < 3; c++) {
    const y = reading.absorbancePerCm[c] / unit;
    const sigma = reading.absorbanceSigma[c] / unit;
    const M = columns.map(({ response }) => response[c]);
    constraints.push(
      { coefficients: [...M, -sigma], kind: "at-most", bound: y },
      { coefficients: [...M.map((m) => -m), -sigma], kind: "at-most", bound: -y },
    );
  }
  const least = maximise([...columns.map(() => 0), -1], constraints);
  return least.status === "optimal" ? -least.value : Infinity;
}
