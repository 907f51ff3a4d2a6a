import { labToXyzD50 } from "../colour/lab.ts";
import type { Triple } from "../numeric/triple.ts";
import { bandsOfXyz, SMALLEST_BAND } from "../print/plateBands.ts";
import type { InkReport, PaperReport, PlateReport } from "../results/compareResult.ts";

/** Cosine of the absorptions of a colour and of a solid from which the colour is that ink's own: a tint of it, nothing over it. */
const OWN_COLOUR = 0.97;

/**
 * The list of colours where plates were separated: only a plate may carry a loss, so "ink-lost" stays where the colour is one plate's own
 * and that plate lost; everywhere else it becomes "changed".
 * @param plates null: not separated, the list stays as it is.
 */
export function verdictsByPlates(
  inks: readonly InkReport[],
  paper: PaperReport | null,
  plates: readonly PlateReport[] | null,
): readonly InkReport[] {
  if (plates === null) return inks;
  return inks.map((ink) =>
    ink.verdict !== "ink-lost" || plateOf(ink, paper, plates)?.verdict === "lost"
      ? ink
      : { ...ink, verdict: "changed" },
  );
}

/** The plate whose own colour an area has; null where it is a mixture, or where it can't be told. */
function plateOf(
  { kind, labBefore }: InkReport,
  paper: PaperReport | null,
  plates: readonly PlateReport[],
): PlateReport | null {
  const bare = paper?.labBefore ?? null;
  if (kind === "overprint" || labBefore === null || bare === null) return null;
  const colour = absorption(labBefore, bare);
  const [nearest] = plates
    .map((plate) => ({ plate, likeness: cosine(colour, absorption(plate.solidLab, bare)) }))
    .sort((one, other) => other.likeness - one.likeness);
  return nearest.likeness >= OWN_COLOUR ? nearest.plate : null;
}

function absorption(lab: Triple, paper: Triple): readonly number[] {
  const [colour, bare] = [lab, paper].map((one) => bandsOfXyz(labToXyzD50(one)));
  return colour.map(
    (band, c) => Math.log(Math.max(band, SMALLEST_BAND)) - Math.log(Math.max(bare[c], SMALLEST_BAND)), // prettier-ignore
  );
}

function cosine(a: readonly number[], b: readonly number[]): number {
  const dot = a.reduce((sum, value, i) => sum + value * b[i], 0);
  return dot / (Math.hypot(...a) * Math.hypot(...b) || 1);
}
