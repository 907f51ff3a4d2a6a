import type { JarReading } from "../jar/jarReading.ts";
import { LastrinseError, type Warning } from "../errors.ts";
import { measureJarFiles } from "../jar/measureJarFiles.ts";
import { readStation } from "../jar/place/readStation.ts";
import type { JarShape, Station } from "../jar/place/station.ts";
import { cardOf, cardSource } from "./cardOf.ts";
import type { RefusedPhoto } from "../results/refusedPhoto.ts";
import { keptJar } from "./keptForms.ts";
import { type OpenRecord, unchangedInput } from "./openRecord.ts";
import { type BathEvent, inputOf } from "./treatment.ts";
import { TURBIDITY_PHOTO } from "./turbidityPhotos.ts";

export type { RefusedPhoto };

export interface KeptReading {
  /** null: no photo, or one that can't be trusted. */
  readonly reading: JarReading | null;
  readonly refused: RefusedPhoto | null;
  readonly warnings: readonly Warning[];
}

const NO_PHOTO: KeptReading = { reading: null, refused: null, warnings: [] };

/** The station of a bath, or of the last bath before it that had one; else the jar of the record. */
async function geometryOf(
  { folder, treatment }: OpenRecord,
  bath: BathEvent,
): Promise<Station | JarShape> {
  const withStation = treatment.baths
    .filter((other) => other.order <= bath.order && inputOf(other, "station") !== undefined)
    .at(-1);
  const station = withStation && inputOf(withStation, "station");
  if (station !== undefined) return readStation(await unchangedInput(folder, station));
  const { jar, insideMm, passes } = treatment.opened.settings;
  if (jar !== null && insideMm !== null && passes !== null) return { jar, insideMm, passes };
  throw new LastrinseError(
    "station-not-found",
    "Expected the jar's shape, its inside measure and the passes of light, or a station file; the record has neither.",
    {
      remedy:
        "Give --station with the bath, or correct the record: lastrinse amend RECORD 000001 --set jar=flat --set insideMm=50 --set passes=1",
      input: folder,
    },
  );
}

/**
 * A refusal of the library as the result of reading a photo; anything else is thrown on.
 * @param status Only refusals of this exit status. Default: all.
 */
export function refusedPhoto(
  error: unknown,
  status?: number,
): { readonly reading: null; readonly refused: RefusedPhoto } {
  if (!(error instanceof LastrinseError) || (status ?? error.exitStatus) !== error.exitStatus)
    throw error;
  const { code, message, remedy } = error;
  return { reading: null, refused: { code, message, remedy } };
}

/**
 * What the jar photo of a bath says, kept in the record; a refusal of what was measured is kept as well. A file that can't be
 * read now is refused for now, so that one bad file never stands in the way of the rest of the record.
 */
export async function readBath(record: OpenRecord, bath: BathEvent): Promise<KeptReading> {
  const { folder, store, program, treatment } = record;
  const spent = inputOf(bath, "spent");
  const blank = inputOf(bath, "blank");
  if (spent === undefined || blank === undefined) return NO_PHOTO;
  const { jar, insideMm, passes } = treatment.opened.settings;
  const stations = treatment.baths
    .filter((other) => other.order <= bath.order)
    .flatMap((other) => inputOf(other, "station")?.sha256 ?? []);
  const sources = [
    program,
    bath.inputs.map(({ role, sha256 }) => [role, sha256]),
    bath.settings.card,
    await cardSource(bath),
    stations,
    [jar, insideMm, passes],
  ];
  return store
    .keep(
      `${bath.id}-jar`,
      sources,
      async () => {
        try {
          const seriesInput = inputOf(bath, "turbidity-series");
          for (const input of bath.inputs)
            if (input.role === TURBIDITY_PHOTO) await unchangedInput(folder, input);
          const { readings, warnings } = await measureJarFiles({
            spent: [await unchangedInput(folder, spent)],
            blank: await unchangedInput(folder, blank),
            geometry: await geometryOf(record, bath),
            card: await cardOf(folder, bath),
            turbiditySeries:
              seriesInput === undefined ? undefined : await unchangedInput(folder, seriesInput),
          });
          return { reading: readings[0], refused: null, warnings };
        } catch (error) {
          return { ...refusedPhoto(error, 4), warnings: [] };
        }
      },
      keptJar,
    )
    .catch((error: unknown) => ({ ...refusedPhoto(error), warnings: [] }));
}
