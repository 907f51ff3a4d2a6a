/** What makes two baths comparable. null: not stated. */
export interface BathConditions {
  readonly kind: "wash" | "rinse";
  readonly surfactant: boolean | null;
  readonly ph: number | null;
  readonly temperatureC: number | null;
}

/** Baths further apart than this are not alike. */
const PH_APART = 0.5;
const TEMPERATURE_APART_C = 5;

/** Whether two baths may be compared. null: something that isn't stated decides it, and nothing stated speaks against it. */
export function alike(a: BathConditions, b: BathConditions): boolean | null {
  const near = (x: number | null, y: number | null, apart: number): boolean | null =>
    x === null || y === null ? null : Math.abs(x - y) <= apart;
  const parts = [
    a.kind === b.kind,
    a.surfactant === null || b.surfactant === null ? null : a.surfactant === b.surfactant,
    near(a.ph, b.ph, PH_APART),
    near(a.temperatureC, b.temperatureC, TEMPERATURE_APART_C),
  ];
  if (parts.includes(false)) return false;
  return parts.includes(null) ? null : true;
}

/**
 * Where the last run of like baths may begin: only like is fitted with like, and the first rinse after surfactant is a new start. A
 * bath of which it isn't known whether it was like the last may begin the run or stand before it, so both are given.
 * @param baths In order, at least one.
 * @returns Indices, latest first; one where every condition that decides is stated.
 */
export function possibleStarts(baths: readonly BathConditions[]): readonly number[] {
  const last = baths.length - 1;
  const starts: number[] = [];
  let start = last;
  for (; start > 0; start--) {
    const like = alike(baths[start - 1], baths[last]);
    if (like === false) break;
    if (like === null) starts.push(start);
  }
  return [...starts, start];
}
