import { median } from "../numeric/statistics.ts";

const WHOLE_FROM = 0.01;
const LEAST = 0.4;

/** q: how much changed at all, 0.4 (as good as nothing) to 1 (a washed sheet). @param change y, three values a cell. */
export function stirOf(change: Float64Array): number {
  return Math.min(1, Math.max(LEAST, median(change.map(Math.abs)) / WHOLE_FROM));
}
