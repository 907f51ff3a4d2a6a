import { shellWord } from "../shellWord.ts";
import { Command } from "commander";
import { DEFAULT_CARD_NAME } from "../../src/card/cards.ts";
import { loadCard } from "../../src/card/loadCard.ts";
import { parseCorners } from "../../src/card/parseCorners.ts";
import type { SheetState } from "../../src/results/compareResult.ts";
import { LastrinseError } from "../../src/errors.ts";
import { assessTreatment } from "../../src/record/assessTreatment.ts";
import { recordKey, writeBenchNote } from "../../src/record/bench.ts";
import { cardOf } from "../../src/record/cardOf.ts";
import { checkPrediction } from "../../src/record/checkPrediction.ts";
import { compareSides } from "../../src/record/compareSides.ts";
import { type Settings, SIDES } from "../../src/record/event.ts";
import { openRecord } from "../../src/record/openRecord.ts";
import { printedInks } from "../../src/record/printedInks.ts";
import { refuseOtherPicture } from "../../src/record/refuseOtherPicture.ts";
import { knownPrint, surveyOf } from "../../src/record/surveyOf.ts";
import type { AfterEvent, Side } from "../../src/record/treatment.ts";
import { resolve } from "node:path";
import { runsJob, type SetExitStatus } from "../addCommon.ts";
import { checkText } from "../checkText.ts";
import { taughtText } from "../taughtText.ts";
import { compareText } from "../compareText.ts";
import type { CommonOptions } from "../context.ts";
import { parsePaper } from "../../src/regions/parsePaper.ts";
import { addPrintOptions, type PrintOptions } from "../addPrintOptions.ts";
import { describeInputs, eventResult, recordEvent, recordNamed } from "../inRecord.ts";
import { numberBetween, oneOf, wholeNumberBetween } from "../parse.ts";

interface ScanOptions extends CommonOptions {
  readonly card?: string;
  readonly corners?: string;
  readonly cardScan?: string;
  readonly state?: SheetState;
  readonly dpi?: number;
  readonly page?: number;
  readonly side: Side;
}

type BeforeOptions = ScanOptions & PrintOptions;

interface AfterOptions extends ScanOptions {
  readonly stage: "washed" | "finished";
}

function scanOptions(command: Command): Command {
  return command
    .argument("<record>", "folder of the record")
    .argument("<scan>", "the scan, with the card in the frame")
    .option("--side <side>", `one of ${SIDES.join(", ")}`, oneOf(...SIDES), "front")
    .option("--card <name or file>", "the card in the frame")
    .option("--corners <points>", 'centres of the four corner patches, "x,y x,y x,y x,y"')
    .option("--card-scan <file>", "scan of the card alone, same settings")
    .option(
      "--state <state>",
      "dry, damp or wet (default dry, with a note)",
      oneOf("dry", "damp", "wet"),
    )
    .option("--dpi <n>", "resolution, where the file does not tell it", numberBetween(10, 10_000))
    .option("--page <n>", "page of a multi-page file", wholeNumberBetween(1, 100_000));
}

/** The four corners as an event holds them. */
function cornersOf(text: string): NonNullable<Settings<"before">["corners"]> {
  const [a, b, c, d] = parseCorners(text, "--corners");
  return [[...a], [...b], [...c], [...d]];
}

/** What is known of the print, as an event holds it; what was not said is left out. */
function printOf({ paper, plates, solid }: BeforeOptions): Partial<Settings<"before">> {
  if (paper !== undefined) parsePaper(paper);
  return {
    ...(paper === undefined ? {} : { paper }),
    ...(plates === undefined ? {} : { plates }),
    ...(solid === undefined ? {} : { solids: solid.map((place) => ({ ...place })) }),
  };
}

function settingsOf(options: ScanOptions, card: string): Settings<"before"> {
  return {
    side: options.side,
    card,
    corners: options.corners === undefined ? null : cornersOf(options.corners),
    state: options.state ?? "dry",
    stateAssumed: options.state === undefined,
    dpi: options.dpi ?? null,
    page: options.page ?? null,
  };
}

/** `before`: the dry cover before it gets wet. Looked at first: a scan without a usable card is not recorded. */
export function beforeCommand(setExitStatus: SetExitStatus): Command {
  const command = scanOptions(
    new Command("before").description(
      "record a scan of the dry cover before washing; finds its inks",
    ),
  );
  addPrintOptions(command);
  return runsJob<BeforeOptions>(command, setExitStatus, async ([folder, scan], options) => {
    const record = await recordNamed(folder);
    const card = options.card ?? DEFAULT_CARD_NAME;
    await loadCard(card);
    return {
      outputs: [],
      run: async () => {
        const inputs = await describeInputs(record.folder, {
          scan,
          "card-scan": options.cardScan,
          inks: options.inks,
          "plate-names": options.plateNames,
          card,
        });
        const settings = { ...settingsOf(options, card), ...printOf(options) };
        await knownPrint(record.folder, trial(inputs, settings));
        const survey = await surveyOf(record, trial(inputs, settings));
        await refuseOtherPicture(String(scan), options.side, survey);
        const event = await recordEvent(record.folder, "before", settings, inputs);
        const inks = survey.inks.map(({ id }) => id);
        const printed =
          survey.paperLab === null
            ? inks
            : printedInks(survey.inks, survey.paperLab).map(({ id }) => id);
        return eventResult(
          event,
          `Inks found: ${inks.join(", ")}.${survey.paperLab === null ? " No bare paper was found." : ""}\nTest under a blotter, in the bath itself, warm and for the whole bath time: ${printed.join(", ")}.\nFor each: lastrinse blot ${shellWord(record.folder)} --ink ${printed[0] ?? "red"} --result WORD --minutes MIN --temperature-c C --ph PH --surfactant (WORD: bleeds, doubtful or fast, as you saw it; --no-surfactant if the liquid held none)`,
          { survey: { paperLab: survey.paperLab, inks: survey.inks }, warnings: survey.warnings },
        );
      },
    };
  });
}

/** An event that is not yet written, to see whether its scan can be used. */
function trial<S>(inputs: Awaited<ReturnType<typeof describeInputs>>, settings: S) {
  const digest = inputs.map(({ sha256 }) => sha256.slice(0, 8)).join("-");
  return { id: `scan-${digest}`, at: "", order: Infinity, inputs, settings };
}

/** `after`: the washed or finished cover, dry. */
export function afterCommand(setExitStatus: SetExitStatus): Command {
  const command = scanOptions(
    new Command("after").description(
      "record a scan of the dry cover after washing; measures the change",
    ),
  ).option(
    "--stage <stage>",
    "washed: checks the prediction and teaches the bench; finished: after later steps",
    oneOf("washed", "finished"),
    "washed",
  );
  return runsJob<AfterOptions>(command, setExitStatus, async ([folder, scan], options) => {
    const record = await recordNamed(folder);
    const before = record.treatment.before.get(options.side);
    if (before === undefined)
      throw new LastrinseError(
        "wrong-use",
        `Expected a before scan of the ${options.side} in ${record.folder}, found none.`,
        {
          remedy: `Record it first: lastrinse before ${shellWord(record.folder)} SCAN --side ${options.side}`,
          input: "--side",
        },
      );
    const card = options.card ?? before.settings.card;
    // The reference file of the before scan lies where it was recorded, wherever the command is given.
    const cardFile = options.card ?? (await cardOf(record.folder, before)) ?? card;
    await loadCard(cardFile);
    return {
      outputs: [],
      run: async (progress) => {
        const inputs = await describeInputs(record.folder, {
          scan,
          "card-scan": options.cardScan,
          card: cardFile,
        });
        const settings = { ...settingsOf(options, card), stage: options.stage };
        const after: AfterEvent = trial(inputs, settings);
        const { result } = await compareSides(record, before, after, progress);
        const event = await recordEvent(record.folder, "after", settings, inputs);
        const check =
          options.stage === "washed" ? await checkAndTeach(record.folder, record.program) : null;
        return eventResult(
          event,
          [
            compareText(result),
            ...(check === null ? [] : [checkText(check)]),
            ...(check === null || record.treatment.opened.settings.bench === null
              ? []
              : [taughtText(check)]),
          ].join("\n"),
          { compare: result, check },
        );
      },
    };
  });
}

/** Prediction beside measurement of the front, and what it teaches the bench. */
async function checkAndTeach(folder: string, program: string) {
  const record = await openRecord(folder, program);
  const { treatment } = record;
  const before = treatment.before.get("front");
  const after = treatment.washed.get("front");
  if (before === undefined || after === undefined || treatment.baths.length === 0) return null;
  const { assessment } = await assessTreatment(record);
  const { result } = await compareSides(record, before, after);
  const day = treatment.baths[0].at.slice(0, 10);
  const check = checkPrediction(
    assessment.fade,
    result,
    day,
    treatment.opened.settings.limits.maxDeltaE00,
  );
  const { bench, title } = treatment.opened.settings;
  // A bath that can't be read is missing from the prediction: nothing is to be learned from that.
  if (bench !== null && record.damaged.length === 0)
    await writeBenchNote(resolve(folder, bench), recordKey(treatment.opened), title, check.teaches);
  return check;
}
