import { loadCard } from "../card/loadCard.ts";
import { compareScans } from "../compare/compareScans.ts";
import { compareResult, type CompareResult } from "../results/compareResult.ts";
import { LastrinseError } from "../errors.ts";
import type { Progress } from "../progress.ts";
import { cardHash, cardOf } from "./cardOf.ts";
import type { KnownPaper } from "../regions/knownPaper.ts";
import type { OpenRecord } from "./openRecord.ts";
import { knownPrint, scanSources, sideRequest, surveyOf } from "./surveyOf.ts";
import type { AfterEvent, ScanEvent } from "./treatment.ts";

const PICTURES = ["inks", "difference", "before", "after"] as const;
/** Kept instead of a picture that could not be drawn. */
const NO_PICTURE = new Uint8Array(0);

export interface KeptComparison {
  readonly result: CompareResult;
  /** PNG bytes. */
  readonly pictures: Readonly<Record<(typeof PICTURES)[number], Uint8Array>> & {
    /** Map of the ink part; null without a measured paper. */
    readonly inkPart: Uint8Array | null;
  };
}

/** The comparison of two scans of the record, kept in it with its pictures. */
export async function compareSides(
  record: OpenRecord,
  before: ScanEvent,
  after: AfterEvent,
  progress?: Progress,
): Promise<KeptComparison> {
  const { folder, store, program } = record;
  refuseOtherCard(before, after);
  const face = insideOf(record, before);
  const sources = await Promise.all(
    [before, after, ...(face === undefined ? [] : [face])].map((event) =>
      scanSources(event, program),
    ),
  );
  const name = `${before.id}-${after.id}`;
  const run = async () => {
    const known = await knownPrint(folder, before);
    return compareScans(
      {
        ...known,
        before: await sideRequest(folder, before),
        after: await sideRequest(folder, after),
        card: await loadCard(await cardOf(folder, after)),
        paper: known.paper ?? (face === undefined ? undefined : await insidePaper(record, face)),
        dpi: after.settings.dpi ?? before.settings.dpi ?? undefined,
      },
      progress,
    );
  };
  let running: ReturnType<typeof run> | undefined;
  const comparison = () => (running ??= run());
  const result = await store.keep(
    `${name}-compare`,
    sources,
    async () => (await comparison()).result,
    compareResult,
  );
  const pictures = {} as Record<(typeof PICTURES)[number], Uint8Array>;
  for (const picture of PICTURES)
    pictures[picture] = await store.keepBytes(`${name}-${picture}`, sources, async () => {
      const drawn = await (await comparison()).pictures;
      return drawn[picture];
    });
  const inkPart = await store.keepBytes(
    `${name}-ink-part`,
    sources,
    async () => (await (await comparison()).pictures).inkPart ?? NO_PICTURE,
  );
  return { result, pictures: { ...pictures, inkPart: inkPart.length === 0 ? null : inkPart } };
}

/** The survey of the face that was not printed on, of a front or back. */
function insideOf({ treatment }: OpenRecord, { settings }: ScanEvent): ScanEvent | undefined {
  if (settings.side === "front") return treatment.before.get("inside-front");
  if (settings.side === "back") return treatment.before.get("inside-back");
  return undefined;
}

/** Its bare paper, for an art that leaves none; undefined where that face shows none either. */
async function insidePaper(record: OpenRecord, face: ScanEvent): Promise<KnownPaper | undefined> {
  const { paperLab } = await surveyOf(record, face);
  return paperLab === null
    ? undefined
    : { source: "inside-face", lab: paperLab, sigmaDeltaE00: INSIDE_SIGMA };
}

/** Bare paper as a survey measures it: from place to place. */
const INSIDE_SIGMA = 0.3;

/** The same card is the same built-in name, or a reference file of the same content. */
function refuseOtherCard(before: ScanEvent, after: AfterEvent): void {
  const [first, second] = [before, after].map(cardHash);
  const named = before.settings.card === after.settings.card;
  // An older program did not record the file: there its name must do.
  const same = first === undefined || second === undefined ? named : first === second;
  if (same) return;
  throw new LastrinseError(
    "frames-differ",
    named
      ? `Expected the same card in both scans; the reference file ${after.settings.card} holds other values now than with the before scan.`
      : `Expected the same card in both scans, received ${before.settings.card} before and ${after.settings.card} after.`,
    {
      remedy: named
        ? "Put the reference file of the before scan back; a card that was measured again is given with a before scan of its own."
        : "Scan the cover again with the card of the before scan, or correct the card's name with amend.",
      input: after.settings.card,
    },
  );
}
