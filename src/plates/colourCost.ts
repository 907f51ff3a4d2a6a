import { ciede2000 } from "../colour/ciede2000.ts";
import { xyzD50ToLab } from "../colour/lab.ts";
import type { Triple } from "../numeric/triple.ts";
import { cellModel } from "./cellModel.ts";
import type { DrawnCells } from "./drawnCells.ts";
import type { FilmFit, Press } from "./filmRegression.ts";
import { primariesOf } from "./primaries.ts";
import { xyzOfBands } from "../print/plateBands.ts";

/**
 * What each plate's loss alone costs in colour: mean dE00 between the cells as cleaning would have left them and the same with that
 * plate's loss. A range, by the coverages with most and with least black.
 * @param fit The regression of the likeliest film, on these cells.
 */
export function colourCost(
  fit: FilmFit,
  cells: DrawnCells,
  press: Press,
): readonly (readonly [low: number, high: number])[] {
  const { unknowns, theta, losses } = fit;
  const k = losses.length;
  const n = cells.spread.length;
  const alone = Array.from({ length: k }, (_, i) =>
    primariesOf(
      press.law,
      press.absorptions,
      fit.film,
      Float64Array.from({ length: k }, (__, j) => (j === i ? losses[i] : 0)),
    ),
  );
  const costs = fit.ends.map((end) => {
    const all = cellModel(fit.unchanged, fit.changed, [end, end]);
    const answer = (row: number, i: number): number =>
      theta[unknowns.answer(i, row % 3)] * all.response[row * k + i];
    const clean = new Float64Array(3 * n);
    for (let row = 0; row < clean.length; row++) {
      let lost = all.change[row];
      for (let i = 0; i < k; i++) lost += answer(row, i);
      clean[row] = cells.before[row] + cells.change[row] - lost;
    }
    return alone.map((changed, i) => {
      if (losses[i] === 0) return 0;
      const one = cellModel(fit.unchanged, changed, [end, end]);
      let sum = 0;
      for (let cell = 0; cell < n; cell++) {
        const row = 3 * cell;
        const lost = (c: number): number => one.change[row + c] + answer(row + c, i);
        sum += ciede2000(
          labOf(clean[row], clean[row + 1], clean[row + 2]),
          labOf(clean[row] + lost(0), clean[row + 1] + lost(1), clean[row + 2] + lost(2)),
        );
      }
      return sum / n;
    });
  });
  return Array.from({ length: k }, (_, i) => [
    Math.min(costs[0][i], costs[1][i]),
    Math.max(costs[0][i], costs[1][i]),
  ]);
}

function labOf(r: number, g: number, b: number): Triple {
  return xyzD50ToLab(xyzOfBands([Math.exp(r), Math.exp(g), Math.exp(b)]));
}
