import { Command } from "commander";
import { assessBaths } from "../../src/advice/assessBaths.ts";
import { readEvidenceFile } from "../../src/bath/readEvidenceFile.ts";
import { LastrinseError } from "../../src/errors.ts";
import { measureJarFiles } from "../../src/jar/measureJarFiles.ts";
import { jarResult } from "../../src/advice/jarResult.ts";
import type { JarResult } from "../../src/results/jarResult.ts";
import { readStrip } from "../../src/jar/readStrip.ts";
import { turbidityIndexSigma } from "../../src/jar/turbidity/turbidityIndexSigma.ts";
import { runsJob, type SetExitStatus } from "../addCommon.ts";
import { adviceText } from "../adviceText.ts";
import type { CommonOptions } from "../context.ts";
import { addJarShape, geometryOf, type JarShapeOptions } from "../jarShape.ts";
import { noteLines } from "../noteLines.ts";
import { plainLine } from "../plainText.ts";
import { toJson } from "../toJson.ts";

interface JarOptions extends CommonOptions, JarShapeOptions {
  readonly station?: string;
  readonly blank: string;
  readonly evidence?: string;
  readonly turbiditySeries?: string;
  readonly card?: string;
}

const EXAMPLES = `
Examples:
  lastrinse jar bath1.jpg bath2.jpg --blank blank.jpg --station station.json --evidence evidence.json
  lastrinse jar bath1.jpg --blank blank.jpg --jar flat --inside-mm 50 --passes 1 --json`;

/** `jar`: colour and turbidity of spent baths, and what they mean. */
export function jarCommand(setExitStatus: SetExitStatus): Command {
  const command = addJarShape(
    new Command("jar")
      .description("read photos of spent bath: absorbance, turbidity, ink and soil, fade, advice")
      .argument("<spent...>", "photos of the spent baths, in bath order")
      .requiredOption("--blank <photo>", "the same jar with fresh bath of the same age")
      .option("--station <file>", "where jar, stripes and card stand in the photos")
      .option("--evidence <file>", "inks, areas, blotter results and conditions")
      .option("--turbidity-series <file>", "photos of your own dilution series")
      .option("--card <name or file>", "the card beside the jar"),
  ).addHelpText("after", EXAMPLES);
  return runsJob<JarOptions>(command, setExitStatus, async ([spent], options) => {
    const geometry = await geometryOf(options);
    const evidence =
      options.evidence === undefined ? null : await readEvidenceFile(options.evidence);
    // Commander gives all of them as one argument.
    const photos = [spent ?? []].flat();
    return {
      outputs: ["result.json"],
      run: async () => {
        const read = await measureJarFiles({
          spent: photos,
          blank: options.blank,
          geometry,
          card: options.card,
          turbiditySeries: options.turbiditySeries,
        });
        const strip =
          evidence === null || evidence.unprintedStrip === null || options.evidence === undefined
            ? null
            : await readStrip(evidence.unprintedStrip, options.evidence, geometry, options.card);
        if (
          evidence !== null &&
          evidence.baths.length > 0 &&
          evidence.baths.length !== photos.length
        )
          throw new LastrinseError(
            "wrong-use",
            `Expected one photo for each of the ${String(evidence.baths.length)} baths of the evidence file, received ${String(photos.length)}.`,
            {
              remedy:
                "Name the photos in bath order, one for each entry under baths (settled second photos too).",
              input: options.evidence,
            },
          );
        const assessment = assessBaths({ evidence, photos: read.readings, strip });
        const result = jarResult(read, assessment);
        return {
          json: result,
          text: [jarText(result), adviceText(assessment)].join("\n"),
          files: { "result.json": toJson(result) },
        };
      },
    };
  });
}

function triple(values: readonly (number | null)[], digits: number): string {
  return values
    .map((value) => (value === null || Number.isNaN(value) ? "-" : value.toFixed(digits)))
    .join(" ");
}

function sigmaOf(indexPerCm: number | null): string {
  return indexPerCm === null ? "" : ` (+- ${turbidityIndexSigma(indexPerCm).toFixed(4)})`;
}

/** What each photo says, for people. */
export function jarText({ baths }: Pick<JarResult, "baths">): string {
  return baths
    .map((bath, i) => {
      const share = bath.inkShare;
      const lines = [
        `Bath ${String(i + 1)}: absorbance ${triple(bath.absorbancePerCm, 4)} per cm (+- ${triple(bath.absorbanceSigma, 4)}; red, green, blue band)`,
        `  turbidity index ${triple([bath.turbidityIndexPerCm], 4)} per cm${sigmaOf(bath.turbidityIndexPerCm)}, ${
          bath.turbidityFnu === null
            ? "not tied to a unit: compares your own baths in this jar and light"
            : `${bath.turbidityFnu.toFixed(1)} FNU-equivalent by your own series`
        }`,
      ];
      if (share !== null)
        lines.push(
          `  ink share: ${share.word}, possible ${share.possible.map((v) => v.toFixed(2)).join(" to ")}${share.likely === null ? "" : `, likely ${share.likely.map((v) => v.toFixed(2)).join(" to ")}`} ${share.condition}`,
        );
      return [...lines.map(plainLine), ...noteLines(bath.warnings, "  ")].join("\n");
    })
    .join("\n");
}
