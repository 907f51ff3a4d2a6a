import type { Settings } from "./event.ts";
import type { BathEvent } from "./treatment.ts";

export type BathSettings = Settings<"bath">;

/** Conditions that a bath may leave out at the tray: they are then those of the last bath of its kind. */
const REPEATABLE = [
  "composition",
  "minutes",
  "temperatureC",
  "volumeMl",
  "phIn",
  "agitation",
] as const satisfies readonly (keyof BathSettings)[];

export type GivenConditions = Partial<BathSettings> & { readonly card: string | null };

/** A first bath with nothing said is a wash; every later one is what the last one was. */
const FIRST_KIND = "wash";

/**
 * The conditions of a bath, what was left out filled in from the last bath of that kind and named in `repeated`.
 * @param given What the user said; undefined = left out.
 * @param earlier Baths so far, in order.
 */
export function repeatConditions(
  given: GivenConditions,
  earlier: readonly BathEvent[],
): BathSettings {
  const repeated: string[] = [];
  const kind = given.kind ?? earlier.at(-1)?.settings.kind ?? FIRST_KIND;
  if (given.kind === undefined && earlier.length > 0) repeated.push("kind");
  const last = earlier.filter(({ settings }) => settings.kind === kind).at(-1)?.settings;
  const filled: Record<string, unknown> = {};
  for (const name of REPEATABLE) {
    const own = given[name];
    if (own !== undefined && own !== null) filled[name] = own;
    else if (last !== undefined && last[name] !== null) {
      filled[name] = last[name];
      repeated.push(name);
    } else filled[name] = null;
  }
  // A surfactant is only repeated between washes; a rinse without a word has none.
  const surfactant = given.surfactant ?? (kind === "wash" ? last?.surfactant : undefined);
  if (given.surfactant === undefined) repeated.push("surfactant");
  return {
    ...(filled as Pick<BathSettings, (typeof REPEATABLE)[number]>),
    kind,
    surfactant: surfactant ?? false,
    phOut: given.phOut ?? null,
    foam: given.foam ?? null,
    note: given.note ?? null,
    repeated,
    card: given.card,
  };
}
