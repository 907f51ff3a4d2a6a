import { Command } from "commander";
import { LastrinseError } from "../../src/errors.ts";
import { assessTreatment } from "../../src/record/assessTreatment.ts";
import { openRecord } from "../../src/record/openRecord.ts";
import { readBath } from "../../src/record/readBath.ts";
import { repeatConditions } from "../../src/record/repeatConditions.ts";
import { runsJob, type SetExitStatus } from "../addCommon.ts";
import { adviceText } from "../adviceText.ts";
import type { CommonOptions } from "../context.ts";
import { describeInputs, eventResult, recordEvent, recordNamed } from "../inRecord.ts";
import { numberBetween, oneOf } from "../parse.ts";
import { readRecipe } from "../readRecipe.ts";
import { trayText } from "../trayText.ts";

interface BathOptions extends CommonOptions {
  readonly spent?: string;
  readonly blank?: string;
  readonly kind?: "wash" | "rinse";
  readonly surfactant?: boolean;
  readonly composition?: string;
  readonly recipe?: string;
  readonly minutes?: number;
  readonly temperatureC?: number;
  readonly volumeMl?: number;
  readonly phIn?: number;
  readonly phOut?: number;
  readonly agitation?: string;
  readonly foam?: "none" | "some" | "much";
  readonly note?: string;
  readonly photo: boolean;
  readonly station?: string;
  readonly turbiditySeries?: string;
  readonly card?: string;
  readonly evidence?: string;
  readonly full: boolean;
}

const EXAMPLES = `
Examples:
  lastrinse bath brine-bell --kind wash --surfactant --minutes 5 --temperature-c 38 --volume-ml 500 --ph-in 8.5 --spent jar1.jpg --blank blank.jpg
  lastrinse bath brine-bell --kind rinse --spent jar2.jpg --blank blank.jpg
  lastrinse bath brine-bell --kind rinse --no-photo`;

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
    .option("--kind <kind>", "wash or rinse", oneOf("wash", "rinse"))
    .option("--surfactant", "the bath held surfactant")
    .option("--no-surfactant", "the bath held none")
    .option("--composition <text>", "what the bath was made of")
    .option("--recipe <file>", "JSON printed by 'recipe --json': its values go into the record")
    .option("--minutes <min>", "how long the sheet lay in it", numberBetween(0.01, 10_000))
    .option("--temperature-c <C>", "temperature", numberBetween(-10, 100))
    .option("--volume-ml <mL>", "volume", numberBetween(0.1, 1_000_000))
    .option("--ph-in <pH>", "pH before", numberBetween(0, 14))
    .option("--ph-out <pH>", "pH after", numberBetween(0, 14))
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
    const { spent, blank, photo } = options;
    if (photo && (spent === undefined || blank === undefined))
      throw new LastrinseError("wrong-use", "Expected --spent and --blank, or --no-photo.", {
        remedy:
          "Photograph the spent bath and fresh bath of the same age in the same jar, or say --no-photo.",
        input: spent === undefined ? "--spent" : "--blank",
      });
    const recipe = options.recipe === undefined ? null : await readRecipe(options.recipe);
    return {
      outputs: [],
      run: async () => {
        const inputs = await describeInputs(record.folder, {
          ...(photo ? { spent, blank } : {}),
          station: options.station,
          "turbidity-series": options.turbiditySeries,
          evidence: options.evidence,
          recipe: options.recipe,
        });
        const settings = repeatConditions(
          {
            ...(options.kind === undefined ? {} : { kind: options.kind }),
            ...(options.surfactant === undefined
              ? recipe?.surfactant === undefined
                ? {}
                : { surfactant: recipe.surfactant }
              : { surfactant: options.surfactant }),
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
          },
          record.treatment.baths,
        );
        const event = await recordEvent(record.folder, "bath", settings, inputs);
        const reopened = await openRecord(record.folder, record.program);
        const own = reopened.treatment.baths.find(({ id }) => id === event.id);
        if (own === undefined) throw new RangeError("The event just written is not in the record.");
        const { reading, refused } = await readBath(reopened, own);
        if (refused !== null)
          throw new LastrinseError(refused.code, refused.message, {
            remedy: `${refused.remedy} The bath itself is recorded as ${event.id} and counts.`,
            input: spent,
          });
        const { assessment } = await assessTreatment(reopened);
        const repeated =
          settings.repeated.length === 0
            ? ""
            : `Repeated from the last bath, not confirmed: ${settings.repeated.join(", ")}.`;
        const text = options.full
          ? [repeated, adviceText(assessment)].join("\n")
          : trayText(assessment.advice, {
              before: [repeated],
              more: `lastrinse advise ${String(folder)} --full`,
            });
        return eventResult(event, text, {
          reading,
          advice: assessment.advice,
        });
      },
    };
  });
}
