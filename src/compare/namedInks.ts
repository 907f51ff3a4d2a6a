import { LastrinseError } from "../errors.ts";
import type { PlateInk } from "../plates/plates.ts";
import type { SolidPlace } from "./pickedInks.ts";
import type { PlateNames } from "./plateNames.ts";

/** Places that are an ink's solid: those of the file, and those given beside it. */
export function placesOfNames(
  names: PlateNames | undefined,
  solids: readonly SolidPlace[],
): readonly SolidPlace[] {
  const named = (names?.plates ?? []).flatMap(({ id, place }) =>
    place === undefined ? [] : [{ name: id, x: place[0], y: place[1] }],
  );
  return [...solids, ...named];
}

/**
 * Of all inks those that the press has, by the names it gives them.
 * @param names Left out: all, by their usual names.
 * @throws {LastrinseError} wrong-use: a solid was picked of an ink that the press has not, or one that its Lab tells already.
 */
export function namedInks(
  inks: readonly PlateInk[],
  names: PlateNames | undefined,
): readonly PlateInk[] {
  if (names === undefined) return inks;
  return inks.flatMap((ink) => {
    const named = names.plates.find(({ id }) => id === ink.id);
    if (ink.picked !== null && (named === undefined || named.lab !== undefined))
      throw new LastrinseError(
        "wrong-use",
        named === undefined
          ? `Expected --solid of an ink that the press has; the plate names list no ${ink.id}.`
          : `Expected one solid of ${ink.id}, received its Lab in the plate names and a place with --solid.`,
        { remedy: "Give the solid in one way, or list the ink.", input: "--solid" },
      );
    if (named === undefined) return [];
    return [{ ...ink, name: named.name ?? ink.name, picked: named.lab ?? ink.picked }];
  });
}
