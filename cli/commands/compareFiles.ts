import type { Comparison } from "../../src/compare/compareScans.ts";
import { compareReport } from "../../src/report/compareReport.tsx";
import { platesPicture } from "../../src/picture/platesPicture.ts";
import { inksCsv } from "../../src/report/inksCsv.ts";
import { platesCsv } from "../../src/report/platesCsv.ts";
import type { OutputFiles } from "../context.ts";
import { toJson } from "../toJson.ts";

/** Files written with `--out`. */
export const COMPARE_OUTPUTS = [
  "result.json",
  "inks.png",
  "difference.png",
  "ink-part.png",
  "registered-after.png",
  "inks.csv",
  "plates.csv",
  "plates.json",
  "plates.png",
  "report.html",
];

/** Everything that `--out` of a comparison holds. */
export async function comparisonFiles(comparison: Comparison): Promise<OutputFiles> {
  const { result, plateTiles } = comparison;
  const pictures = await comparison.pictures;
  const plateMaps =
    plateTiles === null ? null : await platesPicture(result.plates ?? [], plateTiles);
  return {
    "result.json": toJson(result),
    "inks.png": pictures.inks,
    "difference.png": pictures.difference,
    ...(pictures.inkPart === null ? {} : { "ink-part.png": pictures.inkPart }),
    "registered-after.png": pictures.after,
    "inks.csv": inksCsv(result),
    ...(plateTiles === null || plateMaps === null
      ? {}
      : {
          "plates.csv": platesCsv(result),
          "plates.json": toJson(plateTiles),
          "plates.png": plateMaps,
        }),
    "report.html": await compareReport(result, pictures, plateMaps),
  };
}
