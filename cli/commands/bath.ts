import { Command } from "commander";
import type { Evidence } from "../../src/bath/evidence.ts";
import { readEvidenceFile } from "../../src/bath/readEvidenceFile.ts";
import { LastrinseError } from "../../src/errors.ts";
import { evidenceFileOf } from "../../src/record/evidenceOfRecord.ts";
import type { OpenRecord } from "../../src/record/openRecord.ts";
import { type GivenConditions, repeatConditions } from "../../src/record/repeatConditions.ts";
import { runsJob, type SetExitStatus } from "../addCommon.ts";
import type { BathOptions } from "../bathOptions.ts";
import { bathAnswer } from "../bathAnswer.ts";
import { givePhotos } from "../givePhotos.ts";
import { describeInputs, recordEvent, recordNamed } from "../inRecord.ts";
import { oneOf, statedCondition } from "../parse.ts";
import { type BathOfRecipe, readRecipe } from "../readRecipe.ts";
import { refuseSlip } from "../refuseSlip.ts";

const EXAMPLES = `
Examples:
  lastrinse bath brine-bell --kind wash --surfactant --minutes 5 --temperature-c 38 --volume-ml 500 --ph-in 8.5 --spent jar1.jpg --blank blank.jpg
  lastrinse bath brine-bell --kind rinse --no-surfactant --spent jar2.jpg --blank blank.jpg
  lastrinse bath brine-bell --kind rinse --no-surfactant --no-photo
  lastrinse bath brine-bell --photo-for 5 --spent jar2-again.jpg --blank blank-again.jpg`;

/** `bath`: one bath. Its conditions are recorded whatever its photo is worth. */
export function bathCommand(setExitStatus: SetExitStatus): Command {
  const command = new Command("bath")
    .description(
      "record a bath and read its jar photo; conditions left out repeat the last bath of that kind",
    )
    .argument("<record>", "folder of the record")
    .option("--spent <photo>", "the jar with spent bath")
    .option("--blank <photo>", "the same jar with fresh bath of the same age")
    .option("--no-photo", "no photo was taken; the bath counts all the same")
    .option(
      "--photo-for <event>",
      "these photos belong to a bath that is recorded already: no second bath",
    )
    .option(
      "--kind <kind>",
      "wash or rinse; must be said after a bath with surfactant",
      oneOf("wash", "rinse"),
    )
    .option("--surfactant", "the bath held surfactant; so it counts where nothing is said")
    .option("--no-surfactant", "the bath held none")
    .option("--composition <text>", "what the bath was made of")
    .option("--recipe <file>", "JSON printed by 'recipe --json': its values go into the record")
    .option(
      "--minutes <min>",
      "how long the sheet lay in it",
      statedCondition("minutes", "--minutes"),
    )
    .option(
      "--temperature-c <C>",
      "temperature",
      statedCondition("temperatureC", "--temperature-c"),
    )
    .option("--volume-ml <mL>", "volume in millilitres", statedCondition("volumeMl", "--volume-ml"))
    .option("--ph-in <pH>", "pH before", statedCondition("ph", "--ph-in"))
    .option("--ph-out <pH>", "pH after", statedCondition("ph", "--ph-out"))
    .option("--agitation <text>", "how it was moved")
    .option("--foam <word>", "none, some or much", oneOf("none", "some", "much"))
    .option("--note <text>", "anything else")
    .option("--station <file>", "where jar, stripes and card stand in the photos")
    .option("--turbidity-series <file>", "photos of your own dilution series")
    .option("--card <name or file>", "the card beside the jar")
    .option("--evidence <file>", "evidence that replaces the before scan's inks and areas")
    .option("--full", "all reasons and figures, not only what is needed at the tray", false)
    .addHelpText("after", EXAMPLES);
  return runsJob<BathOptions>(command, setExitStatus, async ([folder], options) => {
    const record = await recordNamed(folder);
    const { spent, blank, photo, photoFor } = options;
    if (photoFor !== undefined) return givePhotos(record, photoFor, options);
    if (photo && (spent === undefined || blank === undefined))
      throw new LastrinseError("wrong-use", "Expected --spent and --blank, or --no-photo.", {
        remedy:
          "Photograph the spent bath and fresh bath of the same age in the same jar, or say --no-photo.",
        input: spent === undefined ? "--spent" : "--blank",
      });
    const recipe = options.recipe === undefined ? null : await readRecipe(options.recipe);
    refuseUnreadableLast(record, options.kind);
    const settings = repeatConditions(givenConditions(options, recipe), record.treatment.baths);
    const { wetSheetMl } = (await evidenceFor(record, options.evidence)) ?? {};
    refuseSlip("volumeMl", settings.volumeMl, "--volume-ml", wetSheetMl);
    return {
      outputs: [],
      run: async () => {
        const inputs = await describeInputs(record.folder, {
          ...(photo ? { spent, blank } : {}),
          station: options.station,
          "turbidity-series": options.turbiditySeries,
          evidence: options.evidence,
          recipe: options.recipe,
          card: options.card,
        });
        const event = await recordEvent(record.folder, "bath", settings, inputs);
        return bathAnswer(record, event, event.id, { spent, blank, full: options.full });
      },
    };
  });
}

/** What was said, a recipe standing in for what was not. */
function givenConditions(options: BathOptions, recipe: BathOfRecipe | null): GivenConditions {
  const surfactant = options.surfactant ?? recipe?.surfactant;
  return {
    ...(options.kind === undefined ? {} : { kind: options.kind }),
    ...(surfactant === undefined ? {} : { surfactant }),
    composition: options.composition ?? recipe?.composition ?? null,
    minutes: options.minutes ?? null,
    temperatureC: options.temperatureC ?? recipe?.temperatureC ?? null,
    volumeMl: options.volumeMl ?? recipe?.volumeMl ?? null,
    phIn: options.phIn ?? recipe?.ph ?? null,
    phOut: options.phOut ?? null,
    agitation: options.agitation ?? null,
    foam: options.foam ?? null,
    note: options.note ?? null,
    card: options.card ?? null,
  };
}

/** Where an event can't be read the last bath may be that one: its kind is asked for. */
function refuseUnreadableLast({ damaged }: OpenRecord, kind: BathOptions["kind"]): void {
  if (kind !== undefined || damaged.length === 0) return;
  throw new LastrinseError(
    "wrong-use",
    `Expected --kind wash or --kind rinse: ${damaged[0].file} of the record can't be read, and may have been the last bath.`,
    {
      remedy: "Give the command again with --kind; nothing was recorded.",
      input: "--kind",
    },
  );
}

/** The evidence file given now, or with an earlier bath. A new one is read before anything is recorded. */
async function evidenceFor(record: OpenRecord, file: string | undefined): Promise<Evidence | null> {
  if (file !== undefined) return readEvidenceFile(file);
  // An earlier one that has moved is told of by the advice; the bath is recorded all the same.
  return evidenceFileOf(record).catch(() => null);
}
