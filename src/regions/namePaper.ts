import type { Triple } from "../numeric/triple.ts";
import { absorbanceOnPaper } from "./absorbanceOnPaper.ts";
import type { ModeStatistics } from "./modeStatistics.ts";

/** Which colours of a sheet are bare paper. Numbers are places in the list of colours. */
export interface NamedPaper {
  /** The largest of them: the paper's own colour. */
  readonly main: number;
  /** Paper as well: browned, soiled or cleaner. */
  readonly others: readonly number[];
}

/** Paper of pulp covers, also badly browned, and the chroma of a tint that is no longer paper. */
const LEAST_L = 55;
const MOST_CHROMA = 34;
/** Aged paper is yellow to brown; below this chroma the hue says nothing. */
const LEAST_HUE_DEGREES = 35;
const MOST_HUE_DEGREES = 115;
const NEUTRAL_CHROMA = 5;
/** Bare paper: at least this part of the sheet, and of its rim of 10 mm. */
const LEAST_SHARE = 0.01;
const LEAST_RIM_SHARE = 0.02;
/** Every ink takes light away, so nothing printed is lighter than bare paper in any band but by noise and unevenness. */
const MOST_GAIN = 0.03;
/** Smaller colours (specks of glare, a repair with fresh paper) are not asked. */
const LEAST_WITNESS_SHARE = 0.01;

/** Soil and browning fade out, print ends within a millimetre. */
export const MOST_STAIN_SHARPNESS = 0.55;
/** Stains take light in the order blue, green, red (soluble matter) or evenly (dust): shares of the blue band's. */
const LEAST_GREEN_SHARE = 0.2;
const LEAST_RED_SHARE = 0.02;
const MOST_DUST_EXCESS = 0.03;
/** Strongest stain that still counts as paper, in the blue and in the red band. */
const MOST_STAIN_BLUE = 0.45;
const MOST_STAIN_RED = 0.2;

/**
 * Finds the bare paper among the colours of a sheet: light, colourless to brownish yellow, present in the sheet's rim,
 * and lighter than everything printed. Colours that blend softly into it and differ as soil, browning or cleaner paper
 * do count as paper too.
 * @returns null when no colour passes: art that bleeds on all sides, or a sheet printed all over.
 */
export function namePaper(modes: readonly ModeStatistics[]): NamedPaper | null {
  const cells = modes.reduce((sum, mode) => sum + mode.cells, 0);
  const rimCells = modes.reduce((sum, mode) => sum + mode.rimCells, 0);
  const likely = modes
    .map((mode, k) => ({ mode, k }))
    .filter(
      ({ mode }) =>
        looksLikePaper(mode.lab) &&
        mode.cells >= LEAST_SHARE * cells &&
        mode.rimCells >= LEAST_RIM_SHARE * rimCells,
    );
  // The lightest of them with which no other colour disagrees.
  const anchor = likely
    .sort((p, q) => q.mode.lab[0] - p.mode.lab[0] || p.k - q.k)
    .find(({ mode }) =>
      modes.every(
        (other) =>
          other.cells < LEAST_WITNESS_SHARE * cells ||
          looksLikePaper(other.lab) ||
          absorbanceOnPaper(other.lab, mode.lab).every((A) => A >= -MOST_GAIN),
      ),
    );
  if (anchor === undefined) return null;

  const family = new Set([anchor.k]);
  for (let grown = true; grown;) {
    grown = false;
    for (let k = 0; k < modes.length; k++) {
      if (family.has(k) || !isStain(modes[k].lab, anchor.mode.lab)) continue;
      const soft = [...family].some((m) => modes[k].sharpness[m] <= MOST_STAIN_SHARPNESS);
      if (soft) {
        family.add(k);
        grown = true;
      }
    }
  }
  const bySize = [...family].sort((p, q) => modes[q].cells - modes[p].cells || p - q);
  return { main: bySize[0], others: bySize.slice(1).sort((p, q) => p - q) };
}

function looksLikePaper([L, a, b]: Triple): boolean {
  const chroma = Math.hypot(a, b);
  const hue = (Math.atan2(b, a) * 180) / Math.PI;
  return (
    L >= LEAST_L &&
    chroma <= MOST_CHROMA &&
    (chroma <= NEUTRAL_CHROMA || (hue >= LEAST_HUE_DEGREES && hue <= MOST_HUE_DEGREES))
  );
}

/** Whether a colour can be the paper under soil or browning (or the same paper, cleaner). */
function isStain(lab: Triple, paper: Triple): boolean {
  const [red, green, blue] = absorbanceOnPaper(lab, paper);
  if (Math.max(Math.abs(red), Math.abs(green), Math.abs(blue)) <= MOST_DUST_EXCESS) return true;
  return (
    blue <= MOST_STAIN_BLUE &&
    red <= MOST_STAIN_RED &&
    red >= LEAST_RED_SHARE * blue &&
    green >= LEAST_GREEN_SHARE * blue &&
    green <= blue + MOST_DUST_EXCESS &&
    red <= green + MOST_DUST_EXCESS
  );
}
