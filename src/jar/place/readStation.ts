import { z } from "zod";
import { readUserJson } from "../../json/readUserJson.ts";
import type { Station } from "./station.ts";

const number = z.number();
const point = z.tuple([number, number]);
const box = z.tuple([number, number, number.positive(), number.positive()]);
const zone = z.object({ box, periodPixels: number.min(4), firstWhiteY: number });

/** Also of `dist/schema/station.json`. */
export const STATION = z.object({
  schema: z.literal("lastrinse.station"),
  version: z.literal(1),
  jar: z.enum(["flat", "round"]),
  pathCm: number.positive().max(50),
  passes: z.union([z.literal(1), z.literal(2)]),
  card: z
    .object({ name: z.string(), cornersPixels: z.tuple([point, point, point, point]) })
    .nullish(),
  liquidBox: box,
  stripes: z.object({
    wide: zone,
    narrow: zone.nullish(),
    besideLeft: box,
    besideRight: box,
  }),
});

const REMEDY =
  "Mend the entries named; or leave the station file out and photograph the jar before the printed backing.";

/**
 * Reads a station file: where jar, stripes and card stand in the photos of one set-up.
 * @throws {LastrinseError} `unreadable`, or `bad-json` naming path and line of each wrong entry.
 */
export async function readStation(file: string): Promise<Station> {
  const { jar, pathCm, passes, card, liquidBox, stripes } = await readUserJson(file, STATION, {
    what: "a station file (schema lastrinse.station, version 1)",
    remedy: REMEDY,
  });
  return {
    jar,
    pathCm,
    passes,
    card: card ?? null,
    liquidBox,
    stripes: { ...stripes, narrow: stripes.narrow ?? null },
  };
}
