import { WATER_PKW } from "../../calibration/calcium-hydroxide.ts";
import { interpolate } from "../numeric/interpolate.ts";

const KELVIN = 273.15;
const [POINT_40, POINT_50, POINT_60] = WATER_PKW.slice(-3);

/**
 * pKw of water. Linear between the tabulated values to 60 C; above that the parabola in 1/T through the last three, which
 * meets the known 12.26 at 100 C within 0.01 where straight lines miss it by 0.1.
 * @param temperatureC 0..100.
 */
export function waterPKw(temperatureC: number): number {
  if (temperatureC <= POINT_60[0]) return interpolate(WATER_PKW, temperatureC);
  const x = 1 / (temperatureC + KELVIN);
  const nodes = [POINT_40, POINT_50, POINT_60].map(([t, y]) => [1 / (t + KELVIN), y] as const);
  return nodes.reduce(
    (sum, [xi, yi], i) =>
      sum + nodes.reduce((term, [xj], j) => (j === i ? term : (term * (x - xj)) / (xi - xj)), yi),
    0,
  );
}
