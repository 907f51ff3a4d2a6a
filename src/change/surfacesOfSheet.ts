import { ciede2000 } from "../colour/ciede2000.ts";
import { congruentScalar, evenCovariance, sum3 } from "./congruent.ts";
import type { Triple } from "../numeric/triple.ts";
import { expectUntouched, type Surface } from "../print/expectUntouched.ts";
import { softBands } from "../print/softBands.ts";
import type { PaperUnder } from "./paperField.ts";
import type { MeasuredDifference } from "./measuredDifference.ts";
import type { SurfaceDoubt, WeighedSurface } from "./surfaceDoubt.ts";

/** What is known of a sheet beside its inks. */
export interface SheetKnowledge {
  readonly darkest?: Triple | null;
  readonly film?: readonly [low: number, high: number];
}

/** An ink as measured, and what the paper did under it. */
export interface InkOnPaper {
  readonly ink: MeasuredDifference;
  readonly under: PaperUnder;
}

/** Steps in which film and gloss are tried. */
const FILMS = 8;
const GLOSSES = 6;
/** Washing was seen to take gloss worth 0.4 to 0.8 % of scattered light; a third more is allowed for, inks differ. */
const MOST_GLOSS = 0.011;
/**
 * Film by the darkness D = -ln T (mean of three bands) of the darkest ink: a mixture of ink and paper can't get as dark as a film. Of seven measured
 * presses the solid black has 1.8 (newsprint), 2.7 (uncoated), 3.0 (super-calendered) and 3.3 to 3.8 (coated), where film, as the
 * overprints tell it, is 0, 0.1, 0.6 and 0.7 to 1.
 */
const MIXTURE_DARKNESS = 2.4;
const DARKNESS_RANGE = 1.3;
const MOST_LIKELY_FILM = 0.95;
const FILM_SD = 0.25;
/** Lighter than this, or with bands further apart than this, the darkest ink is no solid black and tells nothing of film. */
const TOLD_DARKNESS = 1.9;
const TOLD_BANDS_APART = 0.6;
const UNTOLD_FILM = 0.4;
const UNTOLD_FILM_SD = 0.4;
/** Light that comes back from the ink's own surface and has never seen the paper, at most: of the diffuser's, and of the ink's. */
const MOST_SURFACE = 0.015;
const MOST_SURFACE_SHARE = 0.8;
/** Deviation of what an ink shows of its paper from the models of film and mixture: as a share of that, and of the paper's own dE00. */
const MODEL_SHARE = 0.12;
const MODEL_PAPER_SHARE = 0.06;
/** Surfaces that hold less of the belief than this, all together, are left out. */
const NEGLIGIBLE = 0.002;

/**
 * How the inks of a sheet may lie on its paper, and how much gloss they may have lost, with the belief in each: film by the darkness of the sheet,
 * gloss anything up to what was seen. Then the inks are heard: a clear film would show the paper's whole change, lost gloss would lighten every
 * dark, and ink that was lost lightens further still. So an ink that came out darker than a surface asks for speaks
 * against it, whatever was lost elsewhere; one that came out lighter says nothing.
 * @param inks All that were measured.
 * @param darkest CIELAB D50 of the darkest places before; null: of the darkest ink.
 * @param film Share of film that is known from elsewhere. Default anything from 0 to 1.
 */
export function surfacesOfSheet(
  inks: readonly InkOnPaper[],
  paper: MeasuredDifference,
  { darkest = null, film = [0, 1] }: SheetKnowledge = {},
): SurfaceDoubt {
  const onPaper = expectUntouched(paper.labBefore);
  const witnesses = inks
    .filter(({ ink }) => [...ink.labBefore, ...ink.labAfter].every(Number.isFinite))
    .map((given) => witness(given, paper, onPaper(given.ink.labBefore)));
  const { mean, sd } = filmByDarkness(
    [...(darkest === null ? [] : [darkest]), ...inks.map(({ ink }) => ink.labBefore)],
    paper.labBefore,
  );
  const weighed: WeighedSurface[] = [];
  for (let i = 0; i <= FILMS; i++)
    for (let j = 0; j <= GLOSSES; j++) {
      const surface = {
        film: film[0] + ((film[1] - film[0]) * i) / FILMS,
        gloss: (MOST_GLOSS * j) / GLOSSES,
      };
      // The models err alike on all inks: the strongest witness counts, not their number.
      const shortfall = Math.max(0, ...witnesses.map((by) => by(surface)));
      const apart = (surface.film - mean) / sd;
      weighed.push({ ...surface, weight: Math.exp(-(shortfall ** 2 + apart ** 2) / 2) });
    }
  const likely = { film: Math.min(film[1], Math.max(film[0], mean)), gloss: 0 };
  const possible = normalised(weighed);
  return possible.length === 0
    ? { likely, possible: [{ ...likely, weight: 1 }] }
    : { likely, possible };
}

/** Weights that add up to 1, without those that hold next to nothing. */
function normalised(surfaces: readonly WeighedSurface[]): WeighedSurface[] {
  const all = surfaces.reduce((sum, { weight }) => sum + weight, 0);
  let rest = NEGLIGIBLE * all;
  const kept = [...surfaces]
    .sort((p, q) => p.weight - q.weight)
    .filter(({ weight }) => (rest -= weight) < 0);
  const total = kept.reduce((sum, { weight }) => sum + weight, 0);
  return kept.map((surface) => ({ ...surface, weight: surface.weight / total }));
}

function filmByDarkness(
  labs: readonly Triple[],
  paper: Triple,
): { readonly mean: number; readonly sd: number } {
  const white = softBands(paper);
  let darkest = 0;
  let told = false;
  for (const lab of labs) {
    if (!lab.every(Number.isFinite)) continue;
    const bands = softBands(lab).map((value, c) => -Math.log(value / white[c]));
    const darkness = (bands[0] + bands[1] + bands[2]) / 3;
    if (darkness <= darkest) continue;
    darkest = darkness;
    told = darkness >= TOLD_DARKNESS && Math.max(...bands) - Math.min(...bands) <= TOLD_BANDS_APART;
  }
  if (!told) return { mean: UNTOLD_FILM, sd: UNTOLD_FILM_SD };
  const mean = (darkest - MIXTURE_DARKNESS) / DARKNESS_RANGE;
  return { mean: Math.min(MOST_LIKELY_FILM, Math.max(0, mean)), sd: FILM_SD };
}

type Expected = ReturnType<ReturnType<typeof expectUntouched>>;

/** By how many deviations an ink came out darker than a surface asks for; 0 where it did not. */
function witness(
  { ink, under }: InkOnPaper,
  paper: MeasuredDifference,
  onPaper: Expected,
): (surface: Surface) => number {
  const [L, a, b] = paper.labAfter;
  const [dL, da, db] = under.offset;
  const paperAfter: Triple = [L + dL, a + da, b + db];
  const at = onPaper(paperAfter);
  const was = meanLog(ink.labBefore);
  const gained = meanLog(ink.labAfter) - was;
  const modelSd = MODEL_PAPER_SHARE * ciede2000(paper.labBefore, paperAfter);
  const own = congruentScalar(
    meanLog,
    ink.labAfter,
    sum3(ink.covariance, evenCovariance(modelSd, ink.labAfter)),
  );
  const offPaper =
    congruentScalar(meanLog, paperAfter, paper.covariance) +
    congruentScalar(meanLog, paperAfter, under.covariance);
  const light = softBands(ink.labBefore);
  return ({ film, gloss }) => {
    // What never saw the paper does not follow it: the least that a film can show.
    const seen = light.map((value) => 1 - Math.min(MOST_SURFACE / value, MOST_SURFACE_SHARE));
    const share = 1 - film + (film * (seen[0] + seen[1] + seen[2])) / 3;
    const fromPaper = share * (meanLog(at({ film, gloss: 0 })) - was);
    const fromGloss = meanLog(at({ film, gloss })) - meanLog(at({ film, gloss: 0 }));
    const sd = Math.sqrt(own + film * film * offPaper + (MODEL_SHARE * fromPaper) ** 2);
    return Math.max(0, (fromPaper + fromGloss - gained) / sd);
  };
}

/** Mean logarithm of the light in three bands. */
function meanLog(lab: Triple): number {
  const [r, g, b] = softBands(lab);
  return Math.log(r * g * b) / 3;
}
