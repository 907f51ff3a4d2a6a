import type { EventInput } from "../../src/record/event.ts";
import type { BlotterVerdict } from "../../src/blotter/gradeBlotterSpot.ts";
import { type BlotEvent, inputOf } from "../../src/record/treatment.ts";
import type { OpenRecord } from "../../src/record/openRecord.ts";
import { shellWord } from "../shellWord.ts";
import { Command } from "commander";
import { DEFAULT_CARD_NAME } from "../../src/card/cards.ts";
import { LastrinseError } from "../../src/errors.ts";
import { gradeBlot } from "../../src/record/gradeBlot.ts";
import { openRecord } from "../../src/record/openRecord.ts";
import { runsJob, type SetExitStatus } from "../addCommon.ts";
import type { CommonOptions } from "../context.ts";
import { describeInputs, eventResult, parseBox, recordEvent, recordNamed } from "../inRecord.ts";
import { oneOf, statedCondition } from "../parse.ts";
import { plainLine } from "../plainText.ts";
import { refuseStrangeInk } from "../refuseStrangeInk.ts";

interface BlotOptions extends CommonOptions {
  readonly ink: string;
  readonly unlisted: boolean;
  readonly photo?: string;
  readonly result?: "bleeds" | "doubtful" | "fast";
  readonly liquid?: string;
  readonly surfactant?: boolean;
  readonly ph?: number;
  readonly temperatureC?: number;
  readonly minutes?: number;
  readonly site?: string;
  readonly card?: string;
  readonly spotBox?: string;
  readonly controlBox?: string;
}

const EXAMPLES = `
Examples:
  lastrinse blot brine-bell --ink red --result fast --surfactant --ph 8.5 --temperature-c 38 --minutes 5
  lastrinse blot brine-bell --ink blue --photo blotter-blue.jpg --no-surfactant --ph 8.5 --temperature-c 38 --minutes 5`;

/** `blot`: a blotter test of one ink in one liquid. */
export function blotCommand(setExitStatus: SetExitStatus): Command {
  const command = new Command("blot")
    .description(
      "record a blotter test of one ink: which liquid, how warm, how long, and what came off",
    )
    .argument("<record>", "folder of the record")
    .requiredOption("--ink <id or name>", "the ink, as named by the before scan or by you")
    .option("--unlisted", "the ink is on a face that was not scanned", false)
    .option(
      "--photo <file>",
      "photo of the blotter with a spot of the liquid alone beside it, and the card",
    )
    .option(
      "--result <word>",
      "bleeds, doubtful or fast, as you saw it",
      oneOf("bleeds", "doubtful", "fast"),
    )
    .option("--liquid <text>", "what the ink was tested with")
    .option("--surfactant", "the liquid held surfactant")
    .option("--no-surfactant", "the liquid held none")
    .option("--ph <pH>", "of the liquid", statedCondition("ph", "--ph"))
    .option(
      "--temperature-c <C>",
      "of the liquid",
      statedCondition("temperatureC", "--temperature-c"),
    )
    .option(
      "--minutes <min>",
      "how long it stood on the ink",
      statedCondition("minutes", "--minutes"),
    )
    .option("--site <text>", "where on the cover")
    .option("--card <name or file>", "the card in the photo")
    .option("--spot-box <x,y,width,height>", "the ink's spot in the photo, in pixels")
    .option("--control-box <x,y,width,height>", "the spot of the liquid alone")
    .addHelpText("after", EXAMPLES);
  return runsJob<BlotOptions>(command, setExitStatus, async ([folder], options) => {
    const record = await recordNamed(folder);
    if (options.photo === undefined && options.result === undefined)
      throw new LastrinseError(
        "wrong-use",
        "Expected --result, --photo or both, received neither.",
        {
          remedy:
            "Say what came off on the blotter: --result bleeds, doubtful or fast; or give its photo.",
          input: "--result",
        },
      );
    if (!options.unlisted) await refuseStrangeInk(record, options.ink, "--ink");
    return {
      outputs: [],
      run: async () => {
        if (!options.unlisted) await refuseStrangeInk(record, options.ink, "--ink");
        const inputs = await describeInputs(record.folder, {
          photo: options.photo,
          ...(options.photo === undefined ? {} : { card: options.card }),
        });
        refuseOtherInksPhoto(record, inputs, options);
        const event = await recordEvent(
          record.folder,
          "blot",
          {
            ink: options.ink,
            result: options.result ?? null,
            liquid: options.liquid ?? null,
            surfactant: options.surfactant ?? null,
            ph: options.ph ?? null,
            temperatureC: options.temperatureC ?? null,
            minutes: options.minutes ?? null,
            site: options.site ?? null,
            card: options.photo === undefined ? null : (options.card ?? DEFAULT_CARD_NAME),
            spotBox: options.spotBox === undefined ? null : parseBox(options.spotBox, "--spot-box"),
            controlBox:
              options.controlBox === undefined
                ? null
                : parseBox(options.controlBox, "--control-box"),
          },
          inputs,
        );
        const reopened = await openRecord(record.folder, record.program);
        const own = reopened.treatment.blots.find(({ id }) => id === event.id);
        if (own === undefined) throw new RangeError("The event just written is not in the record.");
        const { result, reading, refused } = await gradeBlot(reopened, own);
        if (refused !== null && options.result === undefined)
          throw new LastrinseError(refused.code, refused.message, {
            remedy: `${refused.remedy} The test is recorded as ${event.id} without a result; say it with: lastrinse amend ${shellWord(record.folder)} ${event.id} --set result=WORD (bleeds, doubtful or fast, as you saw it)`,
            input: options.photo,
          });
        const corrected = await holdWord(record.folder, own, reading?.verdict ?? null);
        return eventResult(
          event,
          plainLine(
            `${options.ink}: ${result ?? "untested"}${
              reading === null
                ? ""
                : ` (staining grade ${reading.stainingGrade}, ${reading.deltaE00.toFixed(2)} dE00 +- ${reading.spot.sigmaDeltaE00.toFixed(2)} against the liquid alone)`
            }.${refused === null ? "" : ` The photo gave no grade: ${refused.message}`}${corrected}`,
          ),
          { result, reading, refused },
        );
      },
    };
  });
}

/** Worse goes after better. */
const SEVERITY = ["fast", "doubtful", "bleeds"] as const;

/**
 * Where the photo shows more than the word given with it, a correction says so: whatever becomes of the photo, the better word permits nothing.
 * @returns What to tell of it; empty where the word stands.
 */
async function holdWord(
  folder: string,
  { id, settings: { result: word } }: BlotEvent,
  seen: BlotterVerdict | null,
): Promise<string> {
  if (word === null || seen === null || SEVERITY.indexOf(seen) <= SEVERITY.indexOf(word)) return "";
  const { id: correction } = await recordEvent(
    folder,
    "amended",
    {
      event: id,
      why: `the photo shows more than was seen: ${seen}, where ${word} was given`,
      withdrawn: false,
      changes: { result: seen },
    },
    [],
  );
  return ` You said ${word}; the photo shows more, and that counts (correction ${correction}).`;
}

/** One photo of one spot can't be the test of two inks; other boxes in it are other spots. */
function refuseOtherInksPhoto(
  { folder, treatment }: OpenRecord,
  inputs: readonly EventInput[],
  { ink, photo, spotBox }: BlotOptions,
): void {
  const own = inputs.find(({ role }) => role === "photo")?.sha256;
  if (own === undefined || spotBox !== undefined) return;
  const other = treatment.blots.find(
    (blot) => blot.settings.ink !== ink && inputOf(blot, "photo")?.sha256 === own,
  );
  if (other === undefined) return;
  throw new LastrinseError(
    "same-picture",
    `${photo ?? "The photo"} is the photo of the blotter test of ${other.settings.ink} (event ${other.id}); it was given for ${ink} as well.`,
    {
      remedy: `Give the photo of ${ink}'s own spot. If both spots are in one photo, say where this one is: --spot-box and --control-box. If event ${other.id} has the wrong photo: lastrinse amend ${shellWord(folder)} ${other.id} --withdraw`,
      input: photo,
    },
  );
}
