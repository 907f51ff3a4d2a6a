import { dirname, resolve } from "node:path";
import { z } from "zod";
import { readUserJson } from "../json/readUserJson.ts";
import { FEWEST_TIE_POINTS } from "./turbidity/tieTurbidity.ts";

const strength = z.number().nonnegative();
const file = z.string().min(1);

/** Also of `dist/schema/turbidity-series.json`. */
export const SERIES = z.object({
  schema: z.literal("lastrinse.turbidity-series"),
  version: z.literal(1),
  points: z.union(
    [
      z.array(z.object({ file, fnu: strength })).min(FEWEST_TIE_POINTS),
      z.array(z.object({ file, relative: strength })).min(FEWEST_TIE_POINTS),
    ],
    {
      error: `expected at least ${FEWEST_TIE_POINTS} entries {"file", "fnu"}, or all of them {"file", "relative"}`,
    },
  ),
});

/** A dilution series as the user listed it. */
export interface TurbiditySeries {
  /** `relative`: own dilutions, 1 or 100 for the strongest as the user likes. */
  readonly unit: "FNU" | "relative";
  /** Paths are absolute. */
  readonly points: readonly { readonly file: string; readonly strength: number }[];
  /** The point of strength 0: the series' own blank; null: the blank of the baths serves. */
  readonly blank: string | null;
}

/**
 * Reads the list of the user's own dilution series. Photo paths in it are absolute or relative to the file.
 * @throws {LastrinseError} `unreadable`, or `bad-json` naming path and line of each wrong entry.
 */
export async function readTurbiditySeries(path: string): Promise<TurbiditySeries> {
  const { points } = await readUserJson(path, SERIES, {
    what: "a turbidity series (schema lastrinse.turbidity-series, version 1)",
    remedy: `Give each photo with its strength: {"file": "jar-20.jpg", "fnu": 20}, at least ${FEWEST_TIE_POINTS} besides the blank; or "relative" instead of "fnu" for your own dilutions.`,
  });
  const all = points.map((point) => ({
    file: resolve(dirname(path), point.file),
    strength: "fnu" in point ? point.fnu : point.relative,
  }));
  return {
    unit: "fnu" in points[0] ? "FNU" : "relative",
    points: all.filter((point) => point.strength > 0),
    blank: all.find((point) => point.strength === 0)?.file ?? null,
  };
}
