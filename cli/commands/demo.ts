import { readFile } from "node:fs/promises";
import { fileURLToPath } from "node:url";
import Table from "cli-table3";
import { Command } from "commander";
import { z } from "zod";
import { loadCard } from "../../src/card/loadCard.ts";
import { compareScans } from "../../src/compare/compareScans.ts";
import type { CompareResult } from "../../src/compare/result.ts";
import { INK_WORDS, PAPER_WORDS } from "../../src/compare/words.ts";
import { runsJob, type SetExitStatus } from "../addCommon.ts";
import type { CommonOptions } from "../context.ts";
import { COMPARE_OUTPUTS, comparisonFiles } from "./compareFiles.ts";

/** Written here when no folder is named; a second run may replace the first. */
const DEFAULT_FOLDER = "demo-output";

const areaTruth = z.object({
  deltaE00: z.number(),
  paperPartDeltaE00: z.number(),
  inkPartDeltaE00: z.number(),
});
const truthSchema = z.object({
  paper: areaTruth,
  inks: z.array(areaTruth.extend({ id: z.string() })),
});

/** The sample folder lies beside `cli/`, and beside `dist/` for the compiled tree. */
function samplePath(name: string): string {
  const up = import.meta.url.includes("/dist/cli/") ? "../../.." : "../..";
  return fileURLToPath(new URL(`${up}/sample-images/${name}`, import.meta.url));
}

/** `demo`: the whole job on the sample images, truth beside measured. */
export function demoCommand(setExitStatus: SetExitStatus): Command {
  const command = new Command("demo").description(
    "run the whole job on the sample images and write the report (default folder: demo-output)",
  );
  const prepare = async () => {
    const card = await loadCard(undefined);
    const truth = truthSchema.parse(JSON.parse(await readFile(samplePath("truth.json"), "utf8")));
    const request = {
      before: { file: samplePath("before.png"), state: "dry" as const },
      after: { file: samplePath("after.png"), state: "dry" as const },
      card,
    };
    return {
      outputs: COMPARE_OUTPUTS,
      run: async (progress: Parameters<typeof compareScans>[1]) => {
        const comparison = await compareScans(request, progress);
        return {
          json: { schema: "lastrinse.demo", version: 1, compare: comparison.result, truth },
          text: demoText(comparison.result, truth),
          files: await comparisonFiles(comparison),
        };
      },
    };
  };
  return runsJob<CommonOptions>(command, setExitStatus, prepare, { defaultFolder: DEFAULT_FOLDER });
}

function demoText(result: CompareResult, truth: z.infer<typeof truthSchema>): string {
  const figure = (value: number | null | undefined): string =>
    value === null || value === undefined ? "-" : value.toFixed(2);
  const table = new Table({
    head: [
      "area",
      "dE00",
      "truth",
      "floor",
      "from paper",
      "truth",
      "ink part",
      "truth",
      "in words",
    ],
    style: { head: [], border: [] },
  });
  if (result.paper !== null)
    table.push([
      "paper",
      figure(result.paper.deltaE00),
      figure(truth.paper.deltaE00),
      figure(result.paper.floorDeltaE00),
      "",
      "",
      "",
      "",
      PAPER_WORDS[result.paper.verdict],
    ]);
  for (const ink of result.inks) {
    const known = truth.inks.find(({ id }) => id === ink.id);
    table.push([
      ink.id,
      figure(ink.deltaE00),
      figure(known?.deltaE00),
      figure(ink.floorDeltaE00),
      figure(ink.paperPartDeltaE00),
      figure(known?.paperPartDeltaE00),
      figure(ink.inkPartDeltaE00),
      figure(known?.inkPartDeltaE00),
      INK_WORDS[ink.verdict],
    ]);
  }
  return [
    "An invented cover, washed on paper only: the drawing script knows what really happened.",
    "Differences are CIEDE2000 (CIELAB D50, 2 degree); below its floor nothing is claimed.",
    table.toString(),
    "Look at report.html in the folder named above.",
  ].join("\n");
}
