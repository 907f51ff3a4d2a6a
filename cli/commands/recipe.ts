import { Command } from "commander";
import { bathRecipe } from "../../src/chemistry/bathRecipe.ts";
import type { Recipe } from "../../src/results/recipe.ts";
import { runsJob, type SetExitStatus } from "../addCommon.ts";
import type { CommonOptions } from "../context.ts";
import { numberBetween, statedCondition } from "../parse.ts";

interface RecipeCommandOptions extends CommonOptions {
  readonly volumeMl: number;
  readonly limewaterShare?: number;
  readonly ph?: number;
  readonly temperatureC: number;
  readonly surfactantDrops?: number;
  readonly dropMl?: number;
  readonly sheetG?: number;
  readonly pickupMlPerG?: number;
  readonly rinseTo?: number;
  readonly wetSheetMl?: number;
}

const EXAMPLES = `
Examples:
  lastrinse recipe --volume-ml 500 --limewater-share 5 --temperature-c 25
  lastrinse recipe --volume-ml 500 --ph 8.5 --temperature-c 38 --surfactant-drops 3
  lastrinse recipe --volume-ml 500 --limewater-share 5 --temperature-c 25 --sheet-g 6 --rinse-to 0.001`;

/** `recipe`: what a bath of thinned limewater contains. */
export function recipeCommand(setExitStatus: SetExitStatus): Command {
  const command = new Command("recipe")
    .description("calcium, pH, surfactant, alkaline reserve and rinses of a dilute limewater bath")
    .requiredOption("--volume-ml <mL>", "bath volume", statedCondition("volumeMl", "--volume-ml"))
    .option(
      "--limewater-share <percent>",
      "share of a stock saturated at 25 C",
      numberBetween(0, 100),
    )
    .option("--ph <pH>", "the pH wanted instead: finds the share", statedCondition("ph", "--ph"))
    .requiredOption(
      "--temperature-c <C>",
      "temperature of the bath",
      statedCondition("temperatureC", "--temperature-c"),
    )
    .option("--surfactant-drops <n>", "drops of neat non-ionic surfactant", numberBetween(0, 1000))
    .option("--drop-ml <mL>", "volume of one of your drops, weighed", numberBetween(0, 1))
    .option("--sheet-g <g>", "dry mass of the sheet", numberBetween(0, 10_000))
    .option("--pickup-ml-per-g <mL/g>", "liquid the sheet holds per gram", numberBetween(0, 50))
    .option(
      "--rinse-to <share>",
      "share of the bath that may stay after rinsing",
      numberBetween(0, 1),
    )
    .option("--wet-sheet-ml <mL>", "liquid in the wet sheet", numberBetween(0, 100_000))
    .addHelpText("after", EXAMPLES);
  return runsJob<RecipeCommandOptions>(command, setExitStatus, (_words, options) => ({
    outputs: [],
    run: () => {
      const recipe = bathRecipe({ ...options, limewaterSharePercent: options.limewaterShare });
      return Promise.resolve({ json: recipe, text: recipeText(recipe) });
    },
  }));
}

/** So many decimals, or two figures where those decimals would show none: at pH 8.5 limewater is a matter of drops. */
function figure(value: number, decimals: number): string {
  return value === 0 || value >= 10 ** (1 - decimals)
    ? value.toFixed(decimals)
    : String(Number(value.toPrecision(2)));
}

function row(label: string, value: string): string {
  return `  ${label.padEnd(26)}${value}`;
}

function recipeText(recipe: Recipe): string {
  const share = (value: number): string => `${(100 * value).toFixed(0)} %`;
  const lines = [
    `Bath of ${String(recipe.volumeMl)} mL at ${String(recipe.temperatureC)} C: ${figure(recipe.limewaterMl, 0)} mL limewater (saturated at 25 C, clear), the rest water.`,
    row("limewater share", `${figure(recipe.limewaterSharePercent, 0)} %`),
    row("calcium hydroxide", `${figure(recipe.calciumHydroxideGPerL, 3)} g/L, to 8 %`),
    row("calcium", `${figure(recipe.calciumMgPerL, 0)} mg/L, to 8 %`),
    row("pH, computed", `${recipe.ph.toFixed(2)} +- ${recipe.phTolerance.toFixed(2)}`),
  ];
  if (recipe.limewaterMlLow !== null && recipe.limewaterMlHigh !== null)
    lines.push(
      row(
        "limewater it may take",
        `${figure(recipe.limewaterMlLow, 0)} to ${figure(recipe.limewaterMlHigh, 0)} mL in clean water, by that tolerance; tap water takes more. Add it little by little and stop at a measured pH.`,
      ),
    );
  if (recipe.surfactantMgPerL !== null)
    lines.push(
      row(
        "surfactant",
        `${recipe.surfactantMgPerL.toFixed(0)} mg/L (${String(recipe.surfactantMgPerLLow?.toFixed(0))} to ${String(recipe.surfactantMgPerLHigh?.toFixed(0))}), ${recipe.surfactantShareOfCmc?.toFixed(1) ?? "?"} of the critical micelle concentration`,
      ),
    );
  lines.push(
    row(
      "alkaline reserve left",
      `${recipe.alkalineReserveMolPerKg.toFixed(3)} mol/kg = ${recipe.alkalineReservePercentCaCO3.toFixed(2)} % CaCO3, ${share(recipe.shareOfIso9706)} of the least of ISO 9706 (pick-up ${String(recipe.pickupMlPerG)} mL/g)`,
    ),
  );
  if (recipe.rinses !== null) lines.push(row("rinses to the target", String(recipe.rinses)));
  lines.push("", "Cautions", ...recipe.cautions.map((caution) => `  - ${caution}`));
  return lines.join("\n");
}
