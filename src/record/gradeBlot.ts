import { DEFAULT_CARD_NAME } from "../card/cards.ts";
import { loadCard } from "../card/loadCard.ts";
import type { Blot } from "../bath/palette.ts";
import type { BlotterReading } from "../blotter/measureBlotter.ts";
import { cardHash, cardOf, cardSource } from "./cardOf.ts";
import { measureBlotterFile } from "../blotter/measureBlotterFile.ts";
import { keptBlot } from "./keptForms.ts";
import { type OpenRecord, unchangedInput } from "./openRecord.ts";
import { type RefusedPhoto, refusedPhoto } from "./readBath.ts";
import type { GradedBlot } from "./testsByInk.ts";
import { type BlotEvent, inputOf } from "./treatment.ts";

export interface KeptBlot extends GradedBlot {
  readonly reading: BlotterReading | null;
  readonly refused: RefusedPhoto | null;
}

/** Worse goes before better: a photo that shows more bleeding than the user saw counts. */
const SEVERITY: readonly Blot[] = ["untested", "fast", "doubtful", "bleeds"];

function worse(a: Blot | null, b: Blot | null): Blot | null {
  if (a === null || b === null) return a ?? b;
  return SEVERITY.indexOf(a) >= SEVERITY.indexOf(b) ? a : b;
}

/**
 * The result of a blotter test: from its photo, from the user's word, the worse of the two where both are there. A photo that was refused when
 * it was measured leaves the word; one that is gone or was changed since may have shown worse than the word, which then only warns.
 */
export async function gradeBlot(record: OpenRecord, event: BlotEvent): Promise<KeptBlot> {
  const photo = inputOf(event, "photo");
  const { result, card: cardName, spotBox, controlBox } = event.settings;
  if (photo === undefined) return { event, result, reading: null, refused: null };
  const reference = cardHash(event) ?? (await cardSource(event));
  const sources = [record.program, photo.sha256, cardName, reference, spotBox, controlBox];
  let gone = false;
  const kept = await record.store
    .keep(
      `${event.id}-blot`,
      sources,
      async () => {
        try {
          const file = await unchangedInput(record.folder, photo);
          const card = await loadCard((await cardOf(record.folder, event)) ?? DEFAULT_CARD_NAME);
          const boxes = spotBox === null || controlBox === null ? null : { spotBox, controlBox };
          const reading = await measureBlotterFile(file, card, boxes);
          return { reading, refused: null };
        } catch (error) {
          return refusedPhoto(error, 4);
        }
      },
      keptBlot,
    )
    .catch((error: unknown) => {
      gone = true;
      return refusedPhoto(error);
    });
  const told = gone && result !== null && result !== "bleeds" ? "untested" : result;
  return { event, result: worse(kept.reading?.verdict ?? null, told), ...kept };
}
