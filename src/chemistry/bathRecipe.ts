import { LastrinseError } from "../errors.ts";
import type { Recipe } from "../results/recipe.ts";
import { alkalineReserve } from "./alkalineReserve.ts";
import { rinsesTo } from "./carryOver.ts";
import { limeBath } from "./limeBath.ts";
import { recipeCautions } from "./recipeCautions.ts";
import { shareForPh } from "./shareForPh.ts";
import { surfactantDose } from "./surfactantDose.ts";

export interface RecipeOptions {
  readonly volumeMl: number;
  /** Percent of a stock saturated at 25 C, 0..100. Either this or `ph`. */
  readonly limewaterSharePercent?: number | undefined;
  /** Wanted pH at the bath's temperature: the share is solved for. */
  readonly ph?: number | undefined;
  readonly temperatureC: number;
  readonly surfactantDrops?: number | undefined;
  /** Volume of one drop as measured by the user; left out: 0.030 mL to 35 %. */
  readonly dropMl?: number | undefined;
  readonly sheetG?: number | undefined;
  /** Default `PICKUP_ML_PER_G`. */
  readonly pickupMlPerG?: number | undefined;
  /** Fraction of the bath's concentration that may stay after rinsing. */
  readonly rinseTo?: number | undefined;
  /** Default: sheet mass times pick-up. */
  readonly wetSheetMl?: number | undefined;
}

/** Liquid held by a drained sheet of old newsprint, mL/g (common practice, no source: 1.5 drained, 2.5 lifted dripping). */
export const PICKUP_ML_PER_G = 1.5;

/**
 * Content, pH, surfactant, reserve and rinses of a bath of thinned limewater.
 * @throws {LastrinseError} `wrong-use`: a value outside its range, a pH that limewater can't give, neither share nor pH or both, or rinses
 * asked for with no way to know the wet sheet's liquid.
 * @example bathRecipe({ volumeMl: 500, limewaterSharePercent: 25, temperatureC: 25 }).ph // 11.93
 */
export function bathRecipe(options: RecipeOptions): Recipe {
  const volumeMl = inRange("bath volume", options.volumeMl, "mL", { above: 0, to: 100_000 });
  const temperatureC = inRange("bath temperature", options.temperatureC, "C", { from: 0, to: 100 });
  const limewater = limewaterOf(options, temperatureC);
  const percent = 100 * limewater.share;
  const drops = optional("number of surfactant drops", options.surfactantDrops, "drops", {
    from: 0,
    to: 10_000,
  });
  const dropMl = optional("volume of a drop", options.dropMl, "mL", { above: 0, to: 1 });
  const sheetG = optional("dry sheet", options.sheetG, "g", { above: 0, to: 10_000 });
  const pickupMlPerG =
    optional("pick-up", options.pickupMlPerG, "mL per g", { above: 0, to: 20 }) ?? PICKUP_ML_PER_G;
  const rinseTo = optional("share left after rinsing", options.rinseTo, "(a fraction)", {
    above: 0,
    below: 1,
  });
  const wetSheetMl =
    optional("liquid of the wet sheet", options.wetSheetMl, "mL", { above: 0, to: 100_000 }) ??
    (sheetG === undefined ? undefined : sheetG * pickupMlPerG);
  if (rinseTo !== undefined && wetSheetMl === undefined)
    throw new LastrinseError(
      "wrong-use",
      "Expected the liquid the wet sheet holds, to count rinses, received neither its mL nor the sheet's mass.",
      { remedy: "Give the wet sheet's liquid in mL, or the dry sheet's mass in g." },
    );

  const lime = limeBath(limewater.share, temperatureC);
  const reserve = alkalineReserve(lime.molPerL, pickupMlPerG);
  const dose = drops === undefined ? null : surfactantDose(drops, volumeMl, dropMl);
  const rinses =
    rinseTo === undefined || wetSheetMl === undefined
      ? null
      : rinsesTo(rinseTo, wetSheetMl, volumeMl);
  return {
    schema: "lastrinse.recipe",
    version: 1,
    volumeMl,
    temperatureC,
    limewaterMl: (volumeMl * percent) / 100,
    limewaterSharePercent: percent,
    limewaterMlLow: limewater.low === null ? null : volumeMl * limewater.low,
    limewaterMlHigh: limewater.high === null ? null : volumeMl * limewater.high,
    calciumHydroxideGPerL: lime.calciumHydroxideGPerL,
    calciumMgPerL: lime.calciumMgPerL,
    ph: lime.ph,
    phTolerance: lime.phTolerance,
    surfactantMgPerL: dose?.mgPerL.mid ?? null,
    surfactantMgPerLLow: dose?.mgPerL.low ?? null,
    surfactantMgPerLHigh: dose?.mgPerL.high ?? null,
    surfactantShareOfCmc: dose?.shareOfCmc.mid ?? null,
    surfactantShareOfCmcLow: dose?.shareOfCmc.low ?? null,
    surfactantShareOfCmcHigh: dose?.shareOfCmc.high ?? null,
    pickupMlPerG,
    alkalineReserveMolPerKg: reserve.molPerKg,
    alkalineReservePercentCaCO3: reserve.percentCaCO3,
    shareOfIso9706: reserve.shareOfIso9706,
    rinses,
    cautions: recipeCautions({
      ph: lime.ph,
      temperatureC,
      saturated: lime.saturated,
      shareOfCmc: dose?.shareOfCmc.mid ?? null,
      shareOfIso9706: reserve.shareOfIso9706,
      rinses,
    }),
  };
}

/** The share, 0..1, as given or solved for. */
function limewaterOf(
  { limewaterSharePercent, ph }: RecipeOptions,
  temperatureC: number,
): { readonly share: number; readonly low: number | null; readonly high: number | null } {
  if ((limewaterSharePercent === undefined) === (ph === undefined))
    throw new LastrinseError(
      "wrong-use",
      `Expected the share of limewater or the pH wanted, received ${ph === undefined ? "neither" : "both"}.`,
      {
        remedy: "Give either --limewater-share, in percent, or --ph: then the share is found.",
        input: "--ph",
      },
    );
  if (ph !== undefined) return shareForPh(inRange("pH", ph, "", { from: 0, to: 14 }), temperatureC);
  const percent = inRange("limewater share", limewaterSharePercent ?? NaN, "percent", {
    from: 0,
    to: 100,
  });
  return { share: percent / 100, low: null, high: null };
}

interface Range {
  readonly from?: number;
  readonly above?: number;
  readonly to?: number;
  readonly below?: number;
}

function inRange(name: string, value: number, unit: string, range: Range): number {
  const { from = -Infinity, above = -Infinity, to = Infinity, below = Infinity } = range;
  if (value >= from && value > above && value <= to && value < below) return value;
  const low = range.above !== undefined ? `above ${range.above}` : `from ${range.from ?? 0}`;
  const high = range.below !== undefined ? `below ${range.below}` : `up to ${range.to ?? ""}`;
  throw new LastrinseError(
    "wrong-use",
    `Expected a ${name} ${low} and ${high} ${unit}, received ${value}.`,
    { remedy: `Give the ${name} in ${unit}, with a decimal point.` },
  );
}

function optional(
  name: string,
  value: number | undefined,
  unit: string,
  range: Range,
): number | undefined {
  return value === undefined ? undefined : inRange(name, value, unit, range);
}
