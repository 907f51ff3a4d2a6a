import { mkdtemp, readFile, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import Table from "cli-table3";
import { Command } from "commander";
import type { CompareResult } from "../../src/results/compareResult.ts";
import { inkWords, PAPER_WORDS } from "../../src/results/compareWords.ts";
import { sampleTruth, type SampleTruth } from "../../src/results/demoResult.ts";
import type { Progress } from "../../src/progress.ts";
import { openRecord } from "../../src/record/openRecord.ts";
import { viewTreatment } from "../../src/record/treatmentView.ts";
import { inksCsv } from "../../src/report/inksCsv.ts";
import { treatmentReport } from "../../src/report/treatmentReport.ts";
import { runsJob, type SetExitStatus } from "../addCommon.ts";
import { checkText } from "../checkText.ts";
import type { CommonOptions, Result } from "../context.ts";
import { writeDemoRecord } from "../demoRecord.ts";
import { readVersion } from "../readVersion.ts";
import { toJson } from "../toJson.ts";

/** Written here when no folder is named; a second run may replace the first. */
const DEFAULT_FOLDER = "demo-output";

const OUTPUTS = [
  "result.json",
  "inks.png",
  "difference.png",
  "ink-part.png",
  "registered-after.png",
  "inks.csv",
  "report.html",
  "record.json",
];

/** The sample folder lies beside `cli/`, and beside `dist/` for the compiled tree. */
function samplesFolder(): string {
  const up = import.meta.url.includes("/dist/cli/") ? "../../.." : "../..";
  return fileURLToPath(new URL(`${up}/sample-images`, import.meta.url));
}

/** `demo`: the whole job on the sample images, truth beside measured. */
export function demoCommand(setExitStatus: SetExitStatus): Command {
  const command = new Command("demo").description(
    "run the whole job on the sample images and write the report (default folder: demo-output)",
  );
  return runsJob<CommonOptions>(
    command,
    setExitStatus,
    () => ({ outputs: OUTPUTS, run: runDemo }),
    { defaultFolder: DEFAULT_FOLDER },
  );
}

async function runDemo(progress: Progress): Promise<Result> {
  const samples = samplesFolder();
  const truth = sampleTruth.parse(JSON.parse(await readFile(join(samples, "truth.json"), "utf8")));
  const scratch = await mkdtemp(join(tmpdir(), "lastrinse-demo-"));
  try {
    const folder = join(scratch, "record");
    await writeDemoRecord(folder, samples);
    const record = await openRecord(folder, readVersion());
    const view = await viewTreatment(record, progress);
    const compared = view.comparisons[0]?.compared;
    if (compared === null || compared === undefined)
      throw new Error("the sample pair could not be compared");
    const { result, pictures } = compared;
    return {
      json: {
        schema: "lastrinse.demo",
        version: 1,
        compare: result,
        prediction: view.prediction,
        truth,
      },
      text: [
        demoText(result, truth),
        ...(view.prediction === null ? [] : [checkText(view.prediction)]),
        "Look at report.html in the folder named above: the final page of this treatment.",
      ].join("\n"),
      files: {
        "result.json": toJson(result),
        "inks.png": pictures.inks,
        "difference.png": pictures.difference,
        ...(pictures.inkPart === null ? {} : { "ink-part.png": pictures.inkPart }),
        "registered-after.png": pictures.after,
        "inks.csv": inksCsv(result),
        "report.html": await treatmentReport(view),
        "record.json": toJson({ schema: "lastrinse.export", version: 1, events: record.events }),
      },
    };
  } finally {
    await rm(scratch, { recursive: true, force: true });
  }
}

function demoText(result: CompareResult, truth: SampleTruth): string {
  const figure = (value: number | null | undefined): string =>
    value === null || value === undefined ? "-" : value.toFixed(2);
  const lab = (value: readonly number[] | null): string =>
    value === null ? "-" : value.map((part) => part.toFixed(1)).join(" ");
  const table = new Table({
    head: [
      "area",
      "Lab before",
      "Lab after",
      "dE00",
      "truth",
      "floor",
      "ink part",
      "truth",
      "in words",
    ],
    style: { head: [], border: [] },
  });
  if (result.paper !== null)
    table.push([
      "paper",
      lab(result.paper.labBefore),
      lab(result.paper.labAfter),
      figure(result.paper.deltaE00),
      figure(truth.paper.deltaE00),
      figure(result.paper.floorDeltaE00),
      "",
      "",
      PAPER_WORDS[result.paper.verdict],
    ]);
  for (const ink of result.inks) {
    const known = truth.inks.find(({ id }) => id === ink.id);
    table.push([
      ink.id,
      lab(ink.labBefore),
      lab(ink.labAfter),
      figure(ink.deltaE00),
      figure(known?.deltaE00),
      figure(ink.floorDeltaE00),
      figure(ink.inkPartDeltaE00),
      figure(known?.inkPartDeltaE00),
      inkWords(ink),
    ]);
  }
  return [
    "An invented cover, washed on paper only: the drawing script knows what really happened.",
    "Differences are CIEDE2000 (CIELAB D50, 2 degree); below its floor nothing is claimed.",
    table.toString(),
  ].join("\n");
}
