import { cardNamed } from "../src/card/cards.ts";
import { LastrinseError } from "../src/errors.ts";
import type { OpenRecord } from "../src/record/openRecord.ts";
import { bathAnswer } from "./bathAnswer.ts";
import type { BathOptions } from "./bathOptions.ts";
import type { Job } from "./context.ts";
import { describeInputs, eventId, recordEvent } from "./inRecord.ts";
import { shellWord } from "./shellWord.ts";

/** What may come with the photos: how they are read. The rest are conditions of the bath, which stand. */
const CONDITIONS = [
  "kind",
  "surfactant",
  "composition",
  "recipe",
  "minutes",
  "temperatureC",
  "volumeMl",
  "phIn",
  "phOut",
  "agitation",
  "foam",
  "note",
  "evidence",
] as const satisfies readonly (keyof BathOptions)[];

/**
 * `bath --photo-for`: photos for a bath that is in the record already. They are kept as a correction of its event that carries
 * files: no second bath, and nothing that was written changes.
 * @throws {LastrinseError} `wrong-use` where there is no such bath, a photo is left out, or conditions are given as well.
 */
export function givePhotos(record: OpenRecord, bath: string, options: BathOptions): Job {
  const { folder, treatment } = record;
  const id = eventId(bath);
  const target = treatment.baths.find((one) => one.id === id);
  if (target === undefined)
    throw new LastrinseError(
      "wrong-use",
      `Expected the event of a bath of ${folder} for --photo-for, received "${bath}".`,
      {
        remedy:
          treatment.baths.length === 0
            ? "No bath is recorded yet: leave --photo-for out."
            : `Use one of: ${treatment.baths.map((one) => `${one.id} (${one.settings.kind})`).join(", ")}.`,
        input: "--photo-for",
      },
    );
  const { spent, blank, station, turbiditySeries, card } = options;
  if (!options.photo || spent === undefined || blank === undefined)
    throw new LastrinseError("wrong-use", "Expected --spent and --blank with --photo-for.", {
      remedy: `Give both: lastrinse bath ${shellWord(folder)} --photo-for ${id} --spent ${shellWord(spent ?? "SPENT")} --blank ${shellWord(blank ?? "BLANK")}`,
      input: spent === undefined ? "--spent" : "--blank",
    });
  const stated = CONDITIONS.filter((name) => options[name] !== undefined);
  if (stated.length > 0)
    throw new LastrinseError(
      "wrong-use",
      `Expected photos alone with --photo-for, received conditions of the bath too (${stated.join(", ")}).`,
      {
        remedy: `Correct conditions with: lastrinse amend ${shellWord(folder)} ${id} --set NAME=VALUE`,
        input: "--photo-for",
      },
    );
  return {
    outputs: [],
    run: async () => {
      const inputs = await describeInputs(folder, {
        spent,
        blank,
        station,
        "turbidity-series": turbiditySeries,
        card: card === undefined || cardNamed(card) !== undefined ? undefined : card,
      });
      const settings = {
        event: id,
        why: "photos of the jar given later",
        withdrawn: false,
        changes: card === undefined ? {} : { card },
      };
      const event = await recordEvent(folder, "amended", settings, inputs);
      return bathAnswer(record, event, id, { spent, blank, full: options.full });
    },
  };
}
