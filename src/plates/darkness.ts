import { quantile } from "../numeric/statistics.ts";

/** How dark the darkest print of a sheet is. */
export interface Darkness {
  /** D: minus the mean over bands of ln T of the darkest places. */
  readonly value: number;
  /** Whether it says something of the stock: dark enough and neutral, so black print. */
  readonly told: boolean;
}

const DARKEST_SHARE = 0.003;
const TOLD_FROM = 1.9;
const NEUTRAL_WITHIN = 0.6;

/**
 * Darkness of the sheet before washing.
 * @param logT x = ln of the bands over those of the paper, three values a cell.
 * @throws {RangeError} No cells.
 */
export function darknessOf(logT: Float64Array): Darkness {
  const n = logT.length / 3;
  if (n === 0) throw new RangeError("Expected at least one cell.");
  const means = new Float64Array(n);
  for (let i = 0; i < n; i++) means[i] = (logT[3 * i] + logT[3 * i + 1] + logT[3 * i + 2]) / 3;
  const limit = quantile(means, DARKEST_SHARE);
  const bands = [0, 1, 2].map((c) => {
    const values: number[] = [];
    for (let i = 0; i < n; i++) if (means[i] <= limit) values.push(logT[3 * i + c]);
    return quantile(values, 0.5);
  });
  const value = -(bands[0] + bands[1] + bands[2]) / 3;
  const range = Math.max(...bands) - Math.min(...bands);
  return { value, told: value >= TOLD_FROM && range <= NEUTRAL_WITHIN };
}
