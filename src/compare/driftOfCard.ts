import type { chooseCorrection } from "../calibrate/chooseCorrection.ts";
import { type Frames, frameTargets } from "../calibrate/fitFrames.ts";
import { leaveOneOutFrames } from "../calibrate/leaveOneOutFrames.ts";
import type { Card } from "../card/card.ts";
import { labToXyzD50 } from "../colour/lab.ts";
import { mean } from "../numeric/statistics.ts";
import { DRIFT_SD } from "../plates/filmPrior.ts";
import { bandsOfXyz, SMALLEST_BAND } from "../print/plateBands.ts";

/**
 * Drift of the exponent that the card leaves between both frames: how far the change of ln of a band of its patches, each predicted by
 * fits that never saw it, leans with ln of the band itself. Slope and its standard error together, rms over the bands; never below the
 * usual drift, which the plates were tried with.
 */
export function driftOfCard(
  frames: Frames,
  card: Card,
  { model, usable }: Pick<ReturnType<typeof chooseCorrection>, "model" | "usable">,
): number {
  const [before, after] = leaveOneOutFrames(model, frameTargets(frames, card), usable);
  const pairs = before.flatMap((lab, i) => {
    const other = after[i];
    return lab === null || other === null ? [] : [[lab, other].map(logBandsOfLab)];
  });
  const squares = [0, 1, 2].map((c) => {
    const x = pairs.map(([first]) => first[c]);
    const y = pairs.map(([first, second]) => second[c] - first[c]);
    const [meanX, meanY] = [mean(x), mean(y)];
    const sxx = x.reduce((sum, value) => sum + (value - meanX) ** 2, 0);
    const slope = x.reduce((sum, value, i) => sum + (value - meanX) * (y[i] - meanY), 0) / sxx;
    const rest = x.reduce(
      (sum, value, i) => sum + (y[i] - meanY - slope * (value - meanX)) ** 2,
      0,
    );
    return slope * slope + rest / (x.length - 2) / sxx;
  });
  const drift = Math.sqrt(mean(squares));
  return Number.isFinite(drift) ? Math.max(DRIFT_SD, drift) : DRIFT_SD;
}

function logBandsOfLab(lab: readonly [number, number, number]): readonly number[] {
  return bandsOfXyz(labToXyzD50(lab)).map((band) => Math.log(Math.max(band, SMALLEST_BAND)));
}
