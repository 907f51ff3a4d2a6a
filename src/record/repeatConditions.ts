import { LastrinseError } from "../errors.ts";
import type { Settings } from "./event.ts";
import type { BathEvent } from "./treatment.ts";

export type BathSettings = Settings<"bath">;

/** Conditions that a bath may leave out at the tray: they are then those of the last bath of its kind. */
const REPEATABLE = [
  "surfactant",
  "composition",
  "minutes",
  "temperatureC",
  "volumeMl",
  "phIn",
  "agitation",
] as const satisfies readonly (keyof BathSettings)[];

export type GivenConditions = Partial<BathSettings> & { readonly card: string | null };

/** A first bath with nothing said is a wash: the kind of which more is feared. */
const FIRST_KIND = "wash";

/**
 * The kind of a bath of which none was said: as the last one, but never after surfactant. There the next bath may be the
 * rinse that is owed or one more wash, and a wrong guess would cancel the rinse.
 * @throws {LastrinseError} `wrong-use`.
 */
function kindAfter(last: BathEvent): BathSettings["kind"] {
  const { kind, surfactant } = last.settings;
  if (surfactant === false) return kind;
  throw new LastrinseError(
    "wrong-use",
    `Expected --kind wash or --kind rinse: bath ${last.id} ${surfactant === true ? "held" : "may have held"} surfactant, so the kind of the next one is not repeated from it.`,
    {
      remedy:
        "Give the command again with --kind rinse --no-surfactant for plain water, or --kind wash; nothing was recorded.",
      input: "--kind",
    },
  );
}

/**
 * The conditions of a bath; what was left out is that of the last bath of its kind, named in `repeated`, and null where nobody
 * ever said. That holds for surfactant too, in a rinse as in a wash: unless stated, it counts as held.
 * @param given What the user said; undefined or null = left out.
 * @param earlier Baths so far, in order.
 * @throws {LastrinseError} `wrong-use` where the kind was left out and can't be repeated.
 */
export function repeatConditions(
  given: GivenConditions,
  earlier: readonly BathEvent[],
): BathSettings {
  const repeated: string[] = [];
  const before = earlier.at(-1);
  const kind = given.kind ?? (before === undefined ? FIRST_KIND : kindAfter(before));
  if (given.kind === undefined && before !== undefined) repeated.push("kind");
  const last = earlier.filter(({ settings }) => settings.kind === kind).at(-1)?.settings;
  const filled: Record<string, unknown> = {};
  for (const name of REPEATABLE) {
    const own = given[name] ?? null;
    const older = last?.[name] ?? null;
    filled[name] = own ?? older;
    if (own === null && older !== null) repeated.push(name);
  }
  return {
    ...(filled as Pick<BathSettings, (typeof REPEATABLE)[number]>),
    kind,
    phOut: given.phOut ?? null,
    foam: given.foam ?? null,
    note: given.note ?? null,
    repeated,
    card: given.card,
  };
}
