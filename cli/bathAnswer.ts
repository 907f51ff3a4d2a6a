import { LastrinseError } from "../src/errors.ts";
import { assessTreatment } from "../src/record/assessTreatment.ts";
import type { RecordEvent } from "../src/record/event.ts";
import { type OpenRecord, openRecord } from "../src/record/openRecord.ts";
import { readBath } from "../src/record/readBath.ts";
import { type BathEvent, inputOf } from "../src/record/treatment.ts";
import { adviceText } from "./adviceText.ts";
import { eventResult } from "./inRecord.ts";
import { nameRecord } from "./nameRecord.ts";
import { plainLine } from "./plainText.ts";
import { shellWord } from "./shellWord.ts";
import { trayText } from "./trayText.ts";

/** Conditions by the words a person uses, in the order of the command's photos. */
const WORDS: Readonly<Record<string, string>> = {
  kind: "kind",
  surfactant: "surfactant",
  composition: "composition",
  minutes: "time",
  temperatureC: "temperature",
  volumeMl: "volume",
  phIn: "pH",
  agitation: "agitation",
};

/** Photos as they were named on the command line. */
interface JarPhotos {
  readonly spent?: string | undefined;
  readonly blank?: string | undefined;
}

/**
 * Reads the photo of a bath that was just recorded, or was just given its photos, and says what it means.
 * @param written The event that was just added: the bath, or the photos given to it.
 * @param id Of the bath.
 * @param photos As they were named, for the line that gives the bath other ones; `full`: all reasons and figures.
 * @throws {LastrinseError} The refusal of the photo, with that line.
 */
export async function bathAnswer(
  { folder, program }: OpenRecord,
  written: RecordEvent,
  id: string,
  photos: JarPhotos & { readonly full: boolean },
) {
  const record = await openRecord(folder, program);
  const bath = record.treatment.baths.find((one) => one.id === id);
  if (bath === undefined) throw new RangeError("The event just written is not in the record.");
  const { reading, refused } = await readBath(record, bath);
  const { assessment } = await assessTreatment(record);
  const advice = nameRecord(assessment.advice, folder);
  if (refused !== null)
    throw new LastrinseError(refused.code, refused.message, {
      remedy: `${refused.remedy.replaceAll("RECORD", () => shellWord(folder))} The sheet now: ${advice.sheetText}. ${retryLines(folder, id, otherPhotos(refused.code, photos))}`,
      input: photos.spent,
    });
  const before = [
    ...repeatedLine(bath),
    ...unstatedLine(folder, bath),
    ...samePhotoLine(record, bath),
    ...otherVolumeLine(record, bath),
  ];
  const text = photos.full
    ? [...before, adviceText({ ...assessment, advice })].join("\n")
    : trayText(advice, {
        before,
        more: `lastrinse advise ${shellWord(folder)} --full`,
      });
  return eventResult(written, text, { reading, advice: assessment.advice });
}

/** What to give instead: the two the other way round where they were swapped, others where one picture had both roles. */
function otherPhotos(code: string, { spent, blank }: JarPhotos): JarPhotos {
  if (code === "blank-darker") return { spent: blank, blank: spent };
  return code === "same-picture" ? {} : { spent, blank };
}

/** A retry is no second bath: how the recorded one gets other photos, and how it is taken back. */
function retryLines(
  folder: string,
  id: string,
  { spent = "SPENT", blank = "BLANK" }: JarPhotos,
): string {
  const record = shellWord(folder);
  return `The bath itself is recorded as ${id} and counts: don't record it again. Take it back only if it never took place (lastrinse amend ${record} ${id} --withdraw). Give it other photos with: lastrinse bath ${record} --photo-for ${id} --spent ${shellWord(spent)} --blank ${shellWord(blank)}`;
}

function repeatedLine({ settings: { kind, repeated } }: BathEvent): string[] {
  if (repeated.length === 0) return [];
  const names = repeated.map((name) => WORDS[name] ?? name).join(", ");
  return [`Repeated from the last ${kind}, not confirmed: ${names}.`];
}

/** What nobody ever said of this bath and the advice needs, with the line that adds it. */
function unstatedLine(folder: string, { id, settings }: BathEvent): string[] {
  const missing = [
    ...(settings.surfactant === null
      ? [["surfactant (counts as held)", "surfactant=TRUE-OR-FALSE"]]
      : []),
    ...(settings.volumeMl === null ? [["volume (no fade without it)", "volumeMl=ML"]] : []),
  ];
  if (missing.length === 0) return [];
  const sets = missing.map(([, change]) => ` --set ${change}`).join("");
  return [
    plainLine(
      `Not stated: ${missing.map(([name]) => name).join(", ")}. Add it as it was: lastrinse amend ${shellWord(folder)} ${id}${sets}`,
    ),
  ];
}

/** One sheet in one tray: a volume several times another one's is more often a slip than meant. */
const UNLIKE_VOLUME = 4;

function otherVolumeLine({ folder, treatment }: OpenRecord, bath: BathEvent): string[] {
  const { volumeMl } = bath.settings;
  const other = treatment.baths.findLast(
    (one) => one.order < bath.order && one.settings.volumeMl !== null,
  )?.settings.volumeMl;
  if (volumeMl === null || other === undefined || other === null) return [];
  if (Math.max(volumeMl / other, other / volumeMl) < UNLIKE_VOLUME) return [];
  return [
    plainLine(
      `This bath has ${String(volumeMl)} mL, the one before it had ${String(other)} mL: all figures rest on that. If it is a slip: lastrinse amend ${shellWord(folder)} ${bath.id} --set volumeMl=ML`,
    ),
  ];
}

/** One photo in two baths: perhaps the same bath recorded twice. */
function samePhotoLine({ folder, treatment }: OpenRecord, bath: BathEvent): string[] {
  const own = inputOf(bath, "spent")?.sha256;
  const other = treatment.baths.find(
    (one) => one.id !== bath.id && inputOf(one, "spent")?.sha256 === own,
  );
  if (own === undefined || other === undefined) return [];
  return [
    plainLine(
      `The same photo belongs to bath ${other.id}: two baths now count, the second as not photographed. If it was one: lastrinse amend ${shellWord(folder)} ${bath.id} --withdraw`,
    ),
  ];
}
