/** What makes two baths comparable. null: not stated, taken as the same. */
export interface BathConditions {
  readonly kind: "wash" | "rinse";
  readonly surfactant: boolean | null;
  readonly ph: number | null;
  readonly temperatureC: number | null;
}

/** Baths further apart than this are not alike. */
const PH_APART = 0.5;
const TEMPERATURE_APART_C = 5;

/** Whether two baths may be compared: what is not stated is taken as the same. */
export function alike(a: BathConditions, b: BathConditions): boolean {
  const near = (x: number | null, y: number | null, apart: number): boolean =>
    x === null || y === null || Math.abs(x - y) <= apart;
  return (
    a.kind === b.kind &&
    a.surfactant === b.surfactant &&
    near(a.ph, b.ph, PH_APART) &&
    near(a.temperatureC, b.temperatureC, TEMPERATURE_APART_C)
  );
}

/**
 * Index of the first bath of the last run of like baths: only like is fitted with like, and the first rinse after surfactant
 * is a new start.
 */
export function startOfLikeRun(baths: readonly BathConditions[]): number {
  let start = Math.max(0, baths.length - 1);
  while (start > 0 && alike(baths[start - 1], baths[baths.length - 1])) start--;
  return start;
}
