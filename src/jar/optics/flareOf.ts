import { encodeSrgb } from "../../colour/srgb.ts";
import type { Triple } from "../../numeric/triple.ts";
import { leastSquares } from "../../numeric/leastSquares.ts";
import type { GreySample } from "./greysOfCard.ts";
import { lightOf } from "./lightOf.ts";
import type { Tone } from "./tone.ts";

/** Uncertainty of a grey: a share of it and a constant; weighs dark greys, which tell flare, against light ones. */
const GREY_SHARE = 0.015;
const GREY_CONSTANT = 0.0015;

const FEWEST_GREYS = 4;

/** More than this share of the white is no lens flare but a wrong curve or a reflection on the card. */
const LARGEST_FLARE = 0.04;

/**
 * Light that lens and room add everywhere, from the greys of the card: the intercept of seen light over reference. Without it the
 * black stripes beside the jar look lighter than they are, and a clear dye would read as a little turbid.
 * @returns Linear light, R G B. Zeros where there are too few greys; never negative.
 */
export function flareOf(greys: readonly GreySample[], tone: Tone): Triple {
  if (greys.length < FEWEST_GREYS) return [0, 0, 0];
  const fits = [0, 1, 2].map((c) => {
    const rows = greys.map((grey) => [1, grey.reference[c]]);
    const seen = greys.map((grey) => lightOf(encodeSrgb(grey.linear[c]), tone));
    const weights = greys.map((grey) => 1 / (GREY_SHARE * grey.reference[c] + GREY_CONSTANT) ** 2);
    const [flare, gain] = leastSquares(rows, seen, weights).solution;
    return { flare, gain };
  });
  // Flare is near enough neutral: one share of the white for all channels averages the errors of the patches.
  const share = fits.reduce((sum, { flare, gain }) => sum + flare / gain, 0) / 3;
  const kept = Math.min(LARGEST_FLARE, Math.max(0, share));
  return [kept * fits[0].gain, kept * fits[1].gain, kept * fits[2].gain];
}
