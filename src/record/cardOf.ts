import { basename } from "node:path";
import { cardNamed } from "../card/cards.ts";
import { sha256File } from "../raster/sha256File.ts";
import type { EventInput } from "./event.ts";
import { unchangedInput } from "./openRecord.ts";
import { inputOf } from "./treatment.ts";

interface WithCard {
  readonly inputs: readonly EventInput[];
  readonly settings: { readonly card: string | null };
}

/** The reference file that was recorded for the card an event names; none for a built-in card, or where the name was corrected since. */
function recordedCard({ inputs, settings: { card } }: WithCard): EventInput | undefined {
  if (card === null || cardNamed(card) !== undefined) return undefined;
  const input = inputOf({ inputs }, "card");
  return input !== undefined && basename(input.file) === basename(card) ? input : undefined;
}

/**
 * The card of an event as `loadCard` takes it: its built-in name, or the path of the reference file that was recorded. An event of an
 * older program names a file that was not recorded; then that name.
 * @throws {LastrinseError} `unreadable`: the reference file is gone, or another than was recorded.
 */
export async function cardOf(record: string, event: WithCard): Promise<string | undefined> {
  const input = recordedCard(event);
  if (input !== undefined) return unchangedInput(record, input);
  return event.settings.card ?? undefined;
}

/**
 * What the figures of an event depend on by its card, beside its settings and inputs: the hash of a reference file that was not recorded, as
 * it is now, so that a changed one is measured anew. null: nothing more.
 */
export async function cardSource(event: WithCard): Promise<string | null> {
  const { card } = event.settings;
  if (card === null || cardNamed(card) !== undefined || recordedCard(event) !== undefined)
    return null;
  return sha256File(card).catch(() => "unreadable");
}

/** Hash of the reference file an event's card stands in; undefined for a built-in card, or a file that was not recorded. */
export function cardHash(event: WithCard): string | undefined {
  return recordedCard(event)?.sha256;
}
