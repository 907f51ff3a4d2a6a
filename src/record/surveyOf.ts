import type { CompareRequest } from "../compare/compareRequest.ts";
import { readPlateNames } from "../compare/readPlateNames.ts";
import { parsePaper } from "../regions/parsePaper.ts";
import { readInkCorrections } from "../regions/readInkCorrections.ts";
import type { SideRequest } from "../compare/compareRequest.ts";
import { loadCard } from "../card/loadCard.ts";
import { encodePng } from "../picture/encodePng.ts";
import { displayPicture } from "../picture/displayPicture.ts";
import { type SurveyedInk, surveyScan } from "../compare/surveyScan.ts";
import type { Triple } from "../numeric/triple.ts";
import type { Warning } from "../errors.ts";
import { cardOf, cardSource } from "./cardOf.ts";
import { keptSurvey } from "./keptForms.ts";
import { type OpenRecord, unchangedInput } from "./openRecord.ts";
import { type AfterEvent, inputOf, type ScanEvent } from "./treatment.ts";

/** What a before scan of the record shows. */
export interface KeptSurvey {
  readonly paperLab: Triple | null;
  readonly inks: readonly SurveyedInk[];
  readonly warnings: readonly Warning[];
}

/** Everything the figures of a scan depend on. */
export async function scanSources(
  event: ScanEvent | AfterEvent,
  program: string,
): Promise<unknown> {
  const inputs = event.inputs.map(({ role, sha256 }) => [role, sha256]);
  const card = await cardSource(event);
  return card === null
    ? [program, event.settings, inputs]
    : [program, event.settings, inputs, card];
}

/** The scan of an event as a request to the comparison. */
export async function sideRequest(
  record: string,
  event: ScanEvent | AfterEvent,
): Promise<SideRequest> {
  const scan = inputOf(event, "scan");
  const cardScan = inputOf(event, "card-scan");
  if (scan === undefined) throw new RangeError(`Event ${event.id} holds no scan.`);
  const { page, corners, state } = event.settings;
  return {
    file: await unchangedInput(record, scan),
    page: page ?? undefined,
    corners: corners ?? undefined,
    cardScan: cardScan === undefined ? undefined : await unchangedInput(record, cardScan),
    state,
  };
}

/** What is known of the print of a side beside its scan. */
export type KnownPrint = Pick<
  CompareRequest,
  "inks" | "paper" | "plates" | "solids" | "plateNames"
>;

/**
 * What a before scan was told of its print: corrections of its inks, its paper, the inks of its press.
 * @throws {LastrinseError} `bad-json`, `wrong-use`; a file that moved or changed.
 */
export async function knownPrint(record: string, event: ScanEvent): Promise<KnownPrint> {
  const { paper, plates, solids } = event.settings;
  const [inks, plateNames] = (["inks", "plate-names"] as const).map((role) => inputOf(event, role));
  return {
    inks:
      inks === undefined ? undefined : await readInkCorrections(await unchangedInput(record, inks)),
    paper: paper === undefined ? undefined : parsePaper(paper),
    plates,
    solids,
    plateNames:
      plateNames === undefined
        ? undefined
        : await readPlateNames(await unchangedInput(record, plateNames)),
  };
}

/** The inks of a before scan, kept in the record. */
export async function surveyOf(
  { folder, store, program }: OpenRecord,
  event: ScanEvent,
): Promise<KeptSurvey> {
  const name = `${event.id}-survey`;
  const sources = await scanSources(event, program);
  const measure = async (): Promise<KeptSurvey> => {
    const { inks: corrections, paper } = await knownPrint(folder, event);
    const survey = await surveyScan({
      ...(await sideRequest(folder, event)),
      inks: corrections,
      paper,
      card: await loadCard(await cardOf(folder, event)),
      dpi: event.settings.dpi ?? undefined,
    });
    const { planes, correction, dpi } = survey;
    await store.keepBytes(`${event.id}-picture`, sources, () =>
      encodePng(
        {
          width: planes.width,
          height: planes.height,
          channels: 3,
          data: displayPicture(planes, correction),
        },
        dpi,
      ),
    );
    const { paperLab, inks, warnings } = survey;
    return { paperLab, inks, warnings };
  };
  return store.keep(name, sources, measure, keptSurvey);
}
