import type { CompareResult, PlateReport } from "./compareResult.ts";

/** Shares a person reads as whole per cent: the middle to the nearest, the bounds outwards so that no interval is narrowed. */
const nearest = (share: number): string => String(Math.round(100 * share));
/** Rounding noise must not raise a whole per cent to the next. */
const ROUNDING = 1e-6;
const down = (share: number): string => String(Math.floor(100 * share + ROUNDING));
const up = (share: number): string => String(Math.ceil(100 * share - ROUNDING));

/** What may be said of one printing ink. */
export function plateSentence({ id, name, verdict, lost, low, high, worst }: PlateReport): string {
  switch (verdict) {
    case "lost": {
      const where =
        worst === null || worst.lost <= lost
          ? ""
          : `, worst at ${worst.place} ${nearest(worst.lost)} %`;
      return `${name} lost ${nearest(lost)} % (${down(low)} to ${up(high)} %)${where}`;
    }
    case "none-shown":
      return `${name}: nothing shown, below ${up(high)} %`;
    case "uncertain":
      return id === "black"
        ? `${name}: not known, which does not mean none (0 to ${up(high)} %)`
        : `${name}: not certain, 0 to ${up(high)} %`;
    case "absent":
      return `${name}: not printed on this sheet`;
  }
}

/** Which list counts, and why. */
const PLATES_COUNT =
  "Loss of ink is told of the printing inks alone; the list of colours says how places look, and a colour is called lost only where it is one printing ink's own.";

export interface PlateSentences {
  /** One a plate; empty where none were separated. */
  readonly plates: readonly string[];
  /** What has to be said beside them; null where nothing is known of plates, as in a result of an older program. */
  readonly note: string | null;
}

/** The printing inks in words. */
export function plateSentences({ plates, plateModel }: CompareResult): PlateSentences {
  if (plates !== null && plates !== undefined)
    return { plates: plates.map(plateSentence), note: PLATES_COUNT };
  if (plateModel === null || plateModel === undefined) return { plates: [], note: null };
  return {
    plates: [],
    note: "The printing inks could not be told apart: the sheet shows too little print. The list of colours counts.",
  };
}

/** Names of the plates of one verdict. */
export function platesNamed(
  plates: readonly PlateReport[],
  verdict: PlateReport["verdict"],
): readonly string[] {
  return plates.filter((plate) => plate.verdict === verdict).map(({ name }) => name);
}
