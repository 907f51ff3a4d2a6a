/** The terms of a floor, each as a dE00 that nothing but chance exceeds with the probability 1 - level. */
export interface FloorTerms {
  /** From the card null: what fits that never saw a patch make of it in both frames. */
  readonly card: number;
  /** From the paired bootstrap over patches. */
  readonly bootstrap: number;
  /** From the area's own texture and size. Default 0. */
  readonly sampling?: number;
  /** dE00 of an unwashed control at the far side of the frame; 0 only where a flat field was taken in both frames. Default 0. */
  readonly light?: number;
  /** From the uncertainty of the map between the frames. Default 0. */
  readonly place?: number;
}

/** The smallest change that may be claimed: root of the sum of the squared terms (independent errors, JCGM 100:2008, 5.1.2). */
export function detectionFloor({
  card,
  bootstrap,
  sampling = 0,
  light = 0,
  place = 0,
}: FloorTerms): number {
  return Math.hypot(card, bootstrap, sampling, light, place);
}

const SINGLE_LEVEL = 0.95;

/** Level for each of m areas so that all of them together keep 95 %: 0.95^(1/m). */
export function floorLevel(regionCount: number): number {
  return SINGLE_LEVEL ** (1 / Math.max(1, regionCount));
}
