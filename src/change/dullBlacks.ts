import { labToXyzD50 } from "../colour/lab.ts";
import type { Triple } from "../numeric/triple.ts";
import { expectByLayers } from "../print/expectByLayers.ts";

/** A black area as measured. */
export interface BlackArea {
  readonly areaCm2: number;
  readonly labBefore: Triple;
  readonly labAfter: Triple;
  /** Lower end of the 95 % interval of its ink part: 0 where nothing beyond the paper's change is shown. */
  readonly inkPartLow: number;
}

/** By so much in C* the expectation of an untouched black may miss: less loss of chroma proves nothing. */
const CHROMA_DOUBT = 0.3;

/**
 * Dull blacks: rise of L* of black areas beyond what the paper explains, with loss of chroma. Calcium that bloomed, lost gloss and ink that sank in
 * add white light, under which the warm tinge of a printed black fades; black ink that was lost lets the tinge of the paper show instead.
 * @param blacks Black areas. @param paperBefore @param paperAfter CIELAB D50 of the bare paper.
 * @returns Mean rise of L* over all black areas, those that are not dulled counting as 0; null where there is no black. A rise below
 * about 2 in L*, or a black without any tinge (C* below 1), can't be told from lost ink and counts as 0.
 */
export function dullBlacks(
  blacks: readonly BlackArea[],
  paperBefore: Triple,
  paperAfter: Triple,
): number | null {
  const area = blacks.reduce((sum, { areaCm2 }) => sum + areaCm2, 0);
  if (!(area > 0)) return null;
  const expect = expectByLayers(paperBefore);
  return blacks.reduce((sum, { areaCm2, labBefore, labAfter, inkPartLow }) => {
    const expected = expect(labBefore)(paperAfter);
    const rise = labAfter[0] - expected[0];
    const dulled = inkPartLow > 0 && rise > 0 && hasPaled(expected, labAfter);
    return dulled ? sum + (areaCm2 / area) * rise : sum;
  }, 0);
}

/** Whether the chroma lies nearer to what white light would leave of it than to what it was. */
function hasPaled(expected: Triple, measured: Triple): boolean {
  const chroma = Math.hypot(expected[1], expected[2]);
  // The same difference of stimuli is a smaller one of cube roots where there is more light.
  const light = labToXyzD50(measured)[1] / labToXyzD50(expected)[1];
  const underWhite = chroma * light ** (-2 / 3);
  return Math.hypot(measured[1], measured[2]) < (chroma + underWhite) / 2 - CHROMA_DOUBT;
}
