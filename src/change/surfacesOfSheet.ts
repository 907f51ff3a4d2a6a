import { congruentScalar } from "./congruent.ts";
import type { Triple } from "../numeric/triple.ts";
import { expectUntouched, type Surface } from "../print/expectUntouched.ts";
import { softBands } from "../print/softBands.ts";
import type { PaperUnder } from "./paperField.ts";
import type { MeasuredDifference } from "./measuredDifference.ts";
import type { SurfaceDoubt } from "./surfaceDoubt.ts";

/** An ink as measured, and what the paper did under it. */
export interface InkOnPaper {
  readonly ink: MeasuredDifference;
  readonly under: PaperUnder;
}

/** Steps in which film and gloss are tried. */
const FILMS = 10;
const GLOSSES = 6;
/** Washing was seen to take gloss worth 0.4 to 0.8 % of scattered light; a tenth more is allowed for. */
const MOST_GLOSS = 0.009;
/**
 * A print darker than ln T = -2.6 (mean of three bands) holds no mere mixture of ink and paper; film grows from there. Source: fit to nine
 * measured presses, newsprint 2.1 to coated stock 4.6.
 */
const MIXTURE_DARKNESS = 2.6;
const DARKNESS_RANGE = 2;
const MOST_LIKELY_FILM = 0.95;
/** Light that comes back from the ink's own surface and has never seen the paper, at most: of the diffuser's, and of the ink's. */
const MOST_SURFACE = 0.015;
const MOST_SURFACE_SHARE = 0.8;
/** The models of film and mixture miss what an ink shows of its paper by up to this share. */
const MODEL_TOLERANCE = 0.25;
/** An ink speaks against a surface from so many of its deviations on: with twenty inks one in forty sheets does so by chance. */
const LEAST_DEVIATIONS = 3;

/**
 * Which surfaces the sheet itself allows. A clear film would show the paper's whole change, lost gloss would lighten every dark; ink that was
 * lost lightens further still. So an ink that came out darker than a surface asks for speaks against it, whatever was lost elsewhere.
 * The rest, from mixture to film and from kept to lost gloss, remains possible.
 * @param inks All that were measured.
 * @param film Share of film that is known from elsewhere. Default anything from 0 to 1.
 */
export function surfacesOfSheet(
  inks: readonly InkOnPaper[],
  paper: MeasuredDifference,
  film: readonly [low: number, high: number] = [0, 1],
): SurfaceDoubt {
  const films = Array.from(
    { length: FILMS + 1 },
    (_, k) => film[0] + ((film[1] - film[0]) * k) / FILMS,
  );
  const glosses = Array.from({ length: GLOSSES + 1 }, (_, k) => (MOST_GLOSS * k) / GLOSSES);
  const onPaper = expectUntouched(paper.labBefore);
  const witnesses = inks
    .filter(({ ink }) => [...ink.labBefore, ...ink.labAfter].every(Number.isFinite))
    .map((given) => witness(given, paper, onPaper(given.ink.labBefore)));
  const allowed = films.map((h) =>
    glosses.map((gloss) => witnesses.every((allows) => allows({ film: h, gloss }))),
  );
  // The border lies between two steps: neighbours of what is allowed remain possible. Mixture with kept gloss always is.
  const possible: Surface[] = [];
  films.forEach((h, i) =>
    glosses.forEach((gloss, j) => {
      const near = [
        [0, 0],
        [-1, 0],
        [0, -1],
      ].some(([di, dj]) => allowed[i + di]?.[j + dj] === true);
      if (near || (i === 0 && j === 0)) possible.push({ film: h, gloss });
    }),
  );
  const highest = Math.max(...possible.map((surface) => surface.film));
  const expected =
    Math.max(
      0,
      Math.min(MOST_LIKELY_FILM, (darkness(inks, paper) - MIXTURE_DARKNESS) / DARKNESS_RANGE),
    ) || 0;
  return {
    likely: { film: Math.min(highest, Math.max(film[0], expected)), gloss: 0 },
    possible,
  };
}

/** Minus the mean ln T of the darkest ink; 0 without any. */
function darkness(inks: readonly InkOnPaper[], paper: MeasuredDifference): number {
  const white = softBands(paper.labBefore);
  return inks.reduce((most, { ink }) => {
    const dark = softBands(ink.labBefore).reduce(
      (sum, value, c) => sum - Math.log(value / white[c]) / 3,
      0,
    );
    return dark > most ? dark : most;
  }, 0);
}

type Expected = ReturnType<ReturnType<typeof expectUntouched>>;

/** Whether an ink allows a surface. */
function witness(
  { ink, under }: InkOnPaper,
  paper: MeasuredDifference,
  onPaper: Expected,
): (surface: Surface) => boolean {
  const [L, a, b] = paper.labAfter;
  const [dL, da, db] = under.offset;
  const paperAfter: Triple = [L + dL, a + da, b + db];
  const at = onPaper(paperAfter);
  const was = meanLog(ink.labBefore);
  const gained = meanLog(ink.labAfter) - was;
  const own = congruentScalar(meanLog, ink.labAfter, ink.covariance);
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
    const tolerance = MODEL_TOLERANCE * Math.abs(fromPaper);
    const doubt = LEAST_DEVIATIONS * Math.sqrt(own + film * film * offPaper);
    return gained >= fromPaper - tolerance + fromGloss - doubt;
  };
}

/** Mean logarithm of the light in three bands. */
function meanLog(lab: Triple): number {
  const [r, g, b] = softBands(lab);
  return Math.log(r * g * b) / 3;
}
