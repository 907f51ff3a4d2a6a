import { basename } from "node:path";
import type { Warning } from "../errors.ts";
import type { Card } from "./card.ts";

/** What was assumed or repaired while the card's reference file was read, as warnings; none for a built-in card. */
export function referenceWarnings({ name, notes = [] }: Card): Warning[] {
  return notes.map((note) => ({ code: "reference-file", message: `${basename(name)}: ${note}` }));
}
