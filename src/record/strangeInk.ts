import { LastrinseError } from "../errors.ts";
import { evidenceFileOf } from "./evidenceOfRecord.ts";
import { nearestName } from "./nearestName.ts";
import type { OpenRecord } from "./openRecord.ts";
import { printedInks } from "./printedInks.ts";
import { surveyedSides } from "./surveyedSides.ts";

/** A name that is none of the inks. */
export interface StrangeInk {
  /** The inks that the advice speaks of. */
  readonly inks: readonly string[];
  /** The one that was probably meant. */
  readonly nearest: string | null;
}

interface KnownInks {
  /** The inks that the cover is printed with. */
  readonly inks: readonly string[];
  /** Those, and the tints and overprints found on the scans. */
  readonly names: ReadonlySet<string>;
}

async function knownInks(record: OpenRecord): Promise<KnownInks> {
  const file = await evidenceFileOf(record);
  if (file !== null) {
    const inks = file.inks.map(({ id }) => id);
    return { inks, names: new Set(inks) };
  }
  const { colours, paperLab } = await surveyedSides(record);
  const found = colours.map(({ id }) => id);
  const inks = paperLab === null ? found : printedInks(colours, paperLab).map(({ id }) => id);
  return { inks, names: new Set([...inks, ...found]) };
}

/**
 * Whether a name is none of the inks of the before scans, or of the evidence file that stands in for them.
 * @returns null where it is one of them, and where no ink is known: nothing was scanned yet, or the scan can't be read now.
 */
export async function strangeInk(record: OpenRecord, name: string): Promise<StrangeInk | null> {
  const known = await knownInks(record).catch((error: unknown) => {
    if (error instanceof LastrinseError) return null;
    throw error;
  });
  if (known === null || known.inks.length === 0 || known.names.has(name)) return null;
  return { inks: known.inks, nearest: nearestName(name, known.inks) };
}
