import { xyzD50ToLab } from "../colour/lab.ts";
import { BRADFORD } from "../colour/adapt.ts";
import type { Triple } from "../numeric/triple.ts";
import { WHITE_D50 } from "../colour/whites.ts";
import { invert3, multiply3Vector } from "../numeric/matrix3.ts";
import { absorbanceOnPaper } from "./absorbanceOnPaper.ts";
import type { ColourWord } from "./colourWord.ts";

/** One colour of the print, as far as its making is asked for. */
export interface PrintedColour {
  /** CIELAB D50. */
  readonly lab: Triple;
  readonly word: ColourWord;
}

/** Screens printed over one another average to a colour that two coverages explain up to this distance (CIELAB). */
const EXPLAINED_DELTA_E = 9;
/** A coverage below this adds no ink, and one ink alone explains its own tints. */
const LEAST_COVERAGE = 0.12;
/** Coverages are tried in twelfths first, then around the best pair in steps half as long, twice. */
const COARSE_STEPS = 12;
const REFINEMENTS = 2;
/** More plates than this were not used. */
const MOST_INKS = 5;
/** So many colours are tried as inks: the sets of five of more would take minutes. */
const MOST_CANDIDATES = 40;

/** Between which inks a colour lies by hue. */
const BETWEEN: Partial<Record<ColourWord, readonly (readonly [ColourWord, ColourWord])[]>> = {
  orange: [["yellow", "red"]],
  green: [["yellow", "blue"]],
  violet: [["red", "blue"]],
  brown: [
    ["red", "blue"],
    ["yellow", "violet"],
    ["orange", "blue"],
    ["red", "green"],
  ],
};

const CONE_TO_XYZ = invert3(BRADFORD);
const CONE_WHITE = multiply3Vector(BRADFORD, WHITE_D50);

function labOfRatios(ratios: Triple): Triple {
  return xyzD50ToLab(
    multiply3Vector(CONE_TO_XYZ, [
      ratios[0] * CONE_WHITE[0],
      ratios[1] * CONE_WHITE[1],
      ratios[2] * CONE_WHITE[2],
    ]),
  );
}

function distance(p: Triple, q: Triple): number {
  return Math.hypot(p[0] - q[0], p[1] - q[1], p[2] - q[2]);
}

/** Transmittance of a screen of coverage c of an ink: the bare part lets all light pass (Murray & Davies). */
function screen(ink: Triple, c: number): Triple {
  return [1 - c + c * ink[0], 1 - c + c * ink[1], 1 - c + c * ink[2]];
}

/**
 * Says which colours of a print are overprints of two others.
 *
 * Two screens, printed one over the other, let pass the product of what each lets pass, so that in absorbance an
 * overprint is a mixture of its inks with factors from 0 to 1 (the independent overlap of Demichel). Each colour is tried
 * as such a mixture of each pair of the others. The inks of the print are then the smallest set that explains all
 * colours, as tints of one or overprints of two: absorbances only add, so no set without the pure inks can do that.
 * Where an ink prints nowhere alone at full strength the sum may fail; a colour that lies by hue between two inks that
 * were found (orange between yellow and red, green between yellow and blue, violet and brown between red and blue)
 * counts as overprint all the same.
 * @param paper CIELAB D50 of the bare paper; null: only the hue decides.
 * @returns true for overprints. Black and grey never are.
 * @see Neugebauer, Z. wiss. Photogr. 36, 73-89 (1937).
 */
export function markOverprints(colours: readonly PrintedColour[], paper: Triple | null): boolean[] {
  const coloured = colours.map(({ word }) => word !== "black" && !word.endsWith("grey"));
  const overprint = paper === null ? colours.map(() => false) : explained(colours, coloured, paper);
  return colours.map(({ word }, k) => {
    if (!coloured[k]) return false;
    const pairs = BETWEEN[word.replace("light-", "") as ColourWord] ?? [];
    const has = (wanted: ColourWord): boolean =>
      colours.some((other, m) => m !== k && other.word === wanted);
    return overprint[k] || pairs.some(([p, q]) => has(p) && has(q));
  });
}

function explained(
  colours: readonly PrintedColour[],
  coloured: readonly boolean[],
  paper: Triple,
): boolean[] {
  const n = colours.length;
  const ratios = colours.map(({ lab }): Triple => {
    const [r, g, b] = absorbanceOnPaper(lab, paper);
    return [Math.min(1, 10 ** -r), Math.min(1, 10 ** -g), Math.min(1, 10 ** -b)];
  });
  const relative = ratios.map(labOfRatios);

  const tintOf = (k: number, i: number): number => {
    let least = Infinity;
    for (let step = 1; step <= 4 * COARSE_STEPS; step++) {
      const made = labOfRatios(screen(ratios[i], step / (4 * COARSE_STEPS)));
      least = Math.min(least, distance(relative[k], made));
    }
    return least;
  };
  const overprintOf = (k: number, i: number, j: number): number => {
    let least = Infinity;
    let bestC = 0;
    let bestD = 0;
    const attempt = (c: number, d: number): void => {
      if (c < LEAST_COVERAGE || c > 1 || d < LEAST_COVERAGE || d > 1) return;
      const p = screen(ratios[i], c);
      const q = screen(ratios[j], d);
      const off = distance(relative[k], labOfRatios([p[0] * q[0], p[1] * q[1], p[2] * q[2]]));
      if (off >= least) return;
      least = off;
      bestC = c;
      bestD = d;
    };
    for (let u = 1; u <= COARSE_STEPS; u++)
      for (let v = 1; v <= COARSE_STEPS; v++) attempt(u / COARSE_STEPS, v / COARSE_STEPS);
    for (let round = 1; round <= REFINEMENTS; round++) {
      const step = 0.5 ** round / COARSE_STEPS;
      const c = bestC;
      const d = bestD;
      for (let u = -1; u <= 1; u++)
        for (let v = -1; v <= 1; v++) attempt(c + u * step, d + v * step);
    }
    return least;
  };
  const tint = colours.map((_, k) => colours.map((__, i) => (i === k ? 0 : tintOf(k, i))));
  const pair = new Float64Array(n * n * n).fill(Infinity);
  for (let k = 0; k < n; k++)
    for (let i = 0; i < n; i++)
      for (let j = i + 1; j < n; j++)
        if (coloured[k] && k !== i && k !== j) {
          const off = overprintOf(k, i, j);
          pair[(k * n + i) * n + j] = off;
          pair[(k * n + j) * n + i] = off;
        }

  // Distance that a set of inks leaves to a colour, as a tint of one and as an overprint of two.
  const asTint = (k: number, inks: readonly number[]): number => {
    let least = Infinity;
    for (const i of inks) least = Math.min(least, tint[k][i]);
    return least;
  };
  const asOverprint = (k: number, inks: readonly number[]): number => {
    let least = Infinity;
    for (const i of inks) for (const j of inks) least = Math.min(least, pair[(k * n + i) * n + j]);
    return least;
  };

  const wanted = colours.map((_, k) => k).filter((k) => coloured[k]);
  const blacks = colours.map((_, k) => k).filter((k) => !coloured[k]);
  // Colours that the others explain worst are the inks; of very many, those that others explain best are not tried.
  const byOthers = colours.map((_, k) => {
    const others = colours.map((__, i) => i).filter((i) => i !== k);
    return Math.min(asTint(k, others), asOverprint(k, others));
  });
  const candidates =
    wanted.length <= MOST_CANDIDATES
      ? wanted
      : [...wanted]
          .sort((p, q) => byOthers[q] - byOthers[p])
          .slice(0, MOST_CANDIDATES)
          .sort((p, q) => p - q);
  const chosen: number[] = [];
  let best = { inks: [] as readonly number[], cost: Infinity, misfit: Infinity };

  // least[k]: distance that the chosen inks and the blacks leave to colour k, as tint or as overprint.
  const judge = (least: Float64Array): void => {
    let unexplained = 0;
    let misfit = 0;
    for (const k of wanted) {
      if (chosen.includes(k)) continue;
      misfit += least[k];
      if (least[k] > EXPLAINED_DELTA_E) unexplained++;
    }
    const cost = unexplained + chosen.length;
    const better =
      cost < best.cost ||
      (cost === best.cost &&
        (misfit < best.misfit || (misfit === best.misfit && chosen.length < best.inks.length)));
    if (better) best = { inks: [...chosen], cost, misfit };
  };
  const withInk = (least: Float64Array, ink: number): Float64Array => {
    const lower = least.slice();
    for (const k of wanted) {
      let value = Math.min(lower[k], tint[k][ink]);
      const row = (k * n + ink) * n;
      for (const other of chosen) value = Math.min(value, pair[row + other]);
      for (const other of blacks) value = Math.min(value, pair[row + other]);
      lower[k] = value;
    }
    return lower;
  };
  // Every set of up to MOST_INKS, one ink more at a time: sets of 30 colours and more are too many to be listed first.
  const extend = (from: number, least: Float64Array): void => {
    judge(least);
    // One more ink than the best set costs can't be cheaper.
    if (chosen.length === MOST_INKS || chosen.length >= best.cost) return;
    for (let at = from; at < candidates.length; at++) {
      const next = withInk(least, candidates[at]);
      chosen.push(candidates[at]);
      extend(at + 1, next);
      chosen.pop();
    }
  };
  const none = Float64Array.from({ length: n }, (_, k) =>
    Math.min(asTint(k, blacks), asOverprint(k, blacks)),
  );
  extend(0, none);
  const inks = [...best.inks, ...blacks];
  return colours.map((_, k) => {
    if (!coloured[k] || inks.includes(k)) return false;
    const over = asOverprint(k, inks);
    return over <= EXPLAINED_DELTA_E && over < asTint(k, inks) - 1;
  });
}
