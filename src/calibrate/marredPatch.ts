import { MAD_TO_SD, median } from "../numeric/statistics.ts";

/** Robust standard deviations that make a patch an outlier against the card's values (common practice, no source). */
export const OUTLIER_DEVIATIONS = 3.5;
/**
 * A patch the fit follows once it may see it is not marred: it is one that only itself can teach, like the black of a card.
 * Share of its leave-one-out error that must remain in the fit.
 */
const UNFOLLOWED = 0.5;

/**
 * The patch that is most out of line with what the others predict for it: dust, a scratch, a reflection.
 * @param leaveOneOut Leave-one-out error of each patch; null where it is not usable.
 * @param residuals Error of each patch in the fit that did see it.
 * @param deviations Robust standard deviations that make an outlier. Default 3.5.
 * @param least Errors up to this (dE00) are never outliers. Default 0.
 * @returns Its index, or null when there is no outlier.
 */
export function marredPatch(
  leaveOneOut: readonly (number | null)[],
  residuals: readonly (number | null)[],
  deviations = OUTLIER_DEVIATIONS,
  least = 0,
): number | null {
  const sd = MAD_TO_SD * median(leaveOneOut.filter((error) => error !== null));
  let worst: number | null = null;
  let largest = Math.max(deviations * sd, least);
  leaveOneOut.forEach((error, i) => {
    if (error === null || error <= largest || (residuals[i] ?? 0) < UNFOLLOWED * error) return;
    worst = i;
    largest = error;
  });
  return worst;
}
