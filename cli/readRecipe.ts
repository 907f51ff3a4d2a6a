import { z } from "zod";
import { readUserJson } from "../src/json/readUserJson.ts";

/** Bounds as of the options that these values stand for. */
const RECIPE = z.object({
  schema: z.literal("lastrinse.recipe"),
  version: z.literal(1),
  volumeMl: z.number().min(0.1).max(1_000_000),
  temperatureC: z.number().min(-10).max(100),
  limewaterMl: z.number().nonnegative(),
  ph: z.number().min(0).max(14),
  surfactantMgPerL: z.number().nonnegative().nullable(),
});

/** What a recipe says of a bath. */
export interface BathOfRecipe {
  readonly volumeMl: number;
  readonly temperatureC: number;
  readonly ph: number;
  readonly surfactant: boolean;
  readonly composition: string;
}

/**
 * Reads what `recipe --json` printed.
 * @throws {LastrinseError} `unreadable`, `bad-json` naming path and line of each wrong entry.
 */
export async function readRecipe(file: string): Promise<BathOfRecipe> {
  const { volumeMl, temperatureC, limewaterMl, ph, surfactantMgPerL } = await readUserJson(
    file,
    RECIPE,
    {
      what: "the JSON that 'recipe --json' prints (schema lastrinse.recipe, version 1)",
      remedy:
        "Write the file with: lastrinse recipe --volume-ml 500 --limewater-share 5 --temperature-c 25 --json > recipe.json",
    },
  );
  const surfactant = surfactantMgPerL !== null && surfactantMgPerL > 0;
  return {
    volumeMl,
    temperatureC,
    ph,
    surfactant,
    composition: `${String(Number(limewaterMl.toPrecision(3)))} mL limewater in ${volumeMl.toFixed(0)} mL${surfactant ? `, surfactant ${surfactantMgPerL.toFixed(0)} mg/L` : ""}`,
  };
}
