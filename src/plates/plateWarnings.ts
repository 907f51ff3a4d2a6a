import type { Triple } from "../numeric/triple.ts";

export type PlateWarningCode =
  "paper-from-lights" | "more-than-three-colours" | "coated-stock" | "redeposited";

export interface PlateWarning {
  readonly code: PlateWarningCode;
  readonly message: string;
}

/** Solids of another press leave up to 7 % outside; an ink of another colour leaves more. */
const OUTSIDE_SHARE = 0.1;
const FILM_FROM = 0.4;
const SAME_COLOUR = 0.9;
/** A change of the paper smaller than this is scanner drift. */
const SMALLEST_STAIN = 0.01;

/**
 * What has to be said beside the figures.
 * @param outside Share of the cells that no mixture of these inks prints (residual above 0.1 in a band).
 * @param film Mean h. @param inks Names of the coloured plates with ln T of their solids.
 * @param paperChange Of ln of the paper's bands.
 */
export function plateWarnings(found: {
  readonly fromLights: boolean;
  readonly outside: number;
  readonly film: number;
  readonly paperChange: Triple;
  readonly inks: readonly { readonly name: string; readonly logT: Triple }[];
}): readonly PlateWarning[] {
  const { fromLights, outside, film, paperChange, inks } = found;
  const warnings: PlateWarning[] = [];
  if (fromLights)
    warnings.push({
      code: "paper-from-lights",
      message:
        "The sheet shows too little bare paper: its paper is judged by the lightest print, and how it changed together with the inks.",
    });
  if (outside > OUTSIDE_SHARE)
    warnings.push({
      code: "more-than-three-colours",
      message: `${Math.round(100 * outside)} % of the sheet is not printed by these inks: another ink counts as a mixture of them.`,
    });
  if (film > FILM_FROM)
    warnings.push({
      code: "coated-stock",
      message: "The ink lies as a film, as on coated paper: how much each ink lost is less sure.",
    });
  const stain = inks
    .map(({ name, logT }) => ({ name, likeness: cosine(paperChange, logT) }))
    .sort((one, other) => other.likeness - one.likeness)[0];
  const grey = cosine(paperChange, [-1, -1, -1]);
  if (
    stain !== undefined &&
    paperChange.every((change) => change < 0) &&
    Math.hypot(...paperChange) > SMALLEST_STAIN &&
    stain.likeness > SAME_COLOUR &&
    // A paper that greyed resembles every ink a little.
    stain.likeness > grey
  )
    warnings.push({
      code: "redeposited",
      message: `The paper took on the colour of ${stain.name}: ink that went from the print may lie on the paper.`,
    });
  return warnings;
}

function cosine(a: Triple, b: Triple): number {
  return (a[0] * b[0] + a[1] * b[1] + a[2] * b[2]) / (Math.hypot(...a) * Math.hypot(...b) || 1);
}
