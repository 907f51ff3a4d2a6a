import { Command } from "commander";
import { loadCard } from "../../src/card/loadCard.ts";
import { parseCorners } from "../../src/card/parseCorners.ts";
import { compareScans } from "../../src/compare/compareScans.ts";
import type { SheetState } from "../../src/results/compareResult.ts";
import { readPlateNames } from "../../src/compare/readPlateNames.ts";
import { readInkCorrections } from "../../src/regions/readInkCorrections.ts";
import { parsePaper } from "../../src/regions/parsePaper.ts";
import type { Detail } from "../../src/regions/findRegions.ts";
import { runsJob, type SetExitStatus } from "../addCommon.ts";
import { compareText } from "../compareText.ts";
import type { CommonOptions } from "../context.ts";
import { numberBetween, oneOf, wholeNumberBetween } from "../parse.ts";
import { addPrintOptions, type PrintOptions } from "../addPrintOptions.ts";
import { COMPARE_OUTPUTS, comparisonFiles } from "./compareFiles.ts";

interface CompareOptions extends CommonOptions, PrintOptions {
  readonly card?: string;
  readonly beforeCorners?: string;
  readonly afterCorners?: string;
  readonly beforeCardScan?: string;
  readonly afterCardScan?: string;
  readonly beforeState?: SheetState;
  readonly afterState?: SheetState;
  readonly dpi?: number;
  readonly page?: number;
  readonly beforePage?: number;
  readonly afterPage?: number;
  readonly detail?: Detail;
}

const EXAMPLES = `
Examples:
  lastrinse compare before.tif after.tif --before-state dry --after-state dry --out result
  lastrinse compare before.png after.png --card chart24-pre2014 --json
  lastrinse compare before.png after.png --solid red=812,1040 --solid blue=300,1500
  lastrinse compare both.tif both.tif --before-page 1 --after-page 2
  lastrinse compare before.tif after.tif --before-card-scan card-before.tif --after-card-scan card-after.tif`;

/** `compare`: one pair of scans, no record. */
export function compareCommand(setExitStatus: SetExitStatus): Command {
  const states = oneOf("dry", "damp", "wet");
  const command = new Command("compare")
    .description("measure what changed between two scans of one cover, ink by ink")
    .argument("<before>", "scan before washing, with the card in the frame")
    .argument("<after>", "scan after washing, dry, with the same card")
    .option(
      "--card <name or file>",
      "the card in the frames: a name of 'card list', or a reference file",
    )
    .option("--before-corners <points>", 'centres of the four corner patches, "x,y x,y x,y x,y"')
    .option("--after-corners <points>", "the same in the after scan")
    .option("--before-card-scan <file>", "scan of the card alone, same settings as the before scan")
    .option("--after-card-scan <file>", "scan of the card alone, same settings as the after scan")
    .option("--before-state <state>", "dry, damp or wet (default dry, with a note)", states)
    .option("--after-state <state>", "dry, damp or wet (default dry, with a note)", states)
    .option(
      "--dpi <n>",
      "resolution of the scans, where the files do not tell it",
      numberBetween(10, 10_000),
    )
    .option("--page <n>", "page of a multi-page file, in both", wholeNumberBetween(1, 100_000))
    .option("--before-page <n>", "page of the before scan's file", wholeNumberBetween(1, 100_000))
    .option("--after-page <n>", "page of the after scan's file", wholeNumberBetween(1, 100_000))
    .option(
      "--detail <level>",
      "how finely inks are told apart: coarser, normal, finer",
      oneOf("coarser", "normal", "finer"),
    );
  addPrintOptions(command).addHelpText("after", EXAMPLES);
  return runsJob<CompareOptions>(command, setExitStatus, async ([before, after], options) => {
    const card = await loadCard(options.card, { strict: options.strict });
    const inks = options.inks === undefined ? undefined : await readInkCorrections(options.inks);
    const request = {
      before: {
        file: String(before),
        page: options.beforePage ?? options.page,
        corners: cornersOf(options.beforeCorners, "--before-corners"),
        cardScan: options.beforeCardScan,
        state: options.beforeState,
      },
      after: {
        file: String(after),
        page: options.afterPage ?? options.page,
        corners: cornersOf(options.afterCorners, "--after-corners"),
        cardScan: options.afterCardScan,
        state: options.afterState,
      },
      card,
      dpi: options.dpi,
      detail: options.detail,
      inks,
      paper: options.paper === undefined ? undefined : parsePaper(options.paper),
      plates: options.plates,
      solids: options.solid,
      plateNames:
        options.plateNames === undefined ? undefined : await readPlateNames(options.plateNames),
      strict: options.strict,
    };
    return {
      outputs:
        options.plates === "none"
          ? COMPARE_OUTPUTS.filter((name) => !name.startsWith("plates."))
          : COMPARE_OUTPUTS,
      owned: COMPARE_OUTPUTS,
      run: async (progress) => {
        const comparison = await compareScans(request, progress);
        const { result } = comparison;
        return {
          json: result,
          text: compareText(result),
          ...(options.out === undefined ? {} : { files: await comparisonFiles(comparison) }),
        };
      },
    };
  });
}

function cornersOf(text: string | undefined, option: string) {
  return text === undefined ? undefined : parseCorners(text, option);
}
