import { describe, expect, test } from "vitest";
import { PLATE_SOLIDS } from "../../calibration/plateSolids.ts";
import { findBarePaper } from "../../src/plates/barePaper.ts";
import { darknessOf } from "../../src/plates/darkness.ts";
import { drawnCells } from "../../src/plates/drawnCells.ts";
import { type FilmFit, regressFilm } from "../../src/plates/filmRegression.ts";
import { filmWeights } from "../../src/plates/filmWeights.ts";
import { absorptionsOfSolid, inkLawOnPaper } from "../../src/plates/inkLaw.ts";
import { paperField } from "../../src/plates/paperField.ts";
import { separatePlates } from "../../src/plates/separatePlates.ts";
import { stirOf } from "../../src/plates/stirOf.ts";
import { usualSolid } from "../../src/plates/usualSolids.ts";
import { sharedDataAvailable } from "../support/sharedData.ts";
import { type CheckPair, ownCheckPair, sharedCheckPair } from "./checkCells.ts";

/** Largest difference of two lists. */
const apart = (a: ArrayLike<number>, b: ArrayLike<number>): number =>
  Math.max(...Array.from(a, (value, i) => Math.abs(value - b[i])));

// Tolerances: those published with the cells for another implementation with the same draw.
const PAPER = 0.002;
const SHARE_OF_SOLID = 0.005;
const LOSS = 0.003;
const WEIGHT = 0.02;
const RESULT = 0.006;
const OTHER_DRAW = 0.015;

const pairs: readonly (readonly [string, boolean, () => CheckPair])[] = [
  ["newsprint, red lost (kept with the tests)", true, ownCheckPair],
  ...["newsprint-red", "coated-blue", "coated-gloss-clean"].map(
    (name) =>
      [name, sharedDataAvailable(`plates/${name}.f32`), () => sharedCheckPair(name)] as const,
  ),
];

for (const [name, available, read] of pairs)
  describe.skipIf(!available)(`${name}${available ? "" : " (skipped: no shared data)"}`, () => {
    test("every step gives the figures worked elsewhere", () => {
      const { figures, cells } = read();
      // Cells whose spread or change lies on a limit fall by rounding to either side.
      expect(Math.abs(cells.usable.length - figures.usable)).toBeLessThanOrEqual(3);
      const bare = findBarePaper(cells);
      const paper = paperField(cells, bare);
      expect(paper.source).toBe(figures.paperFromLights ? "from-lights" : "bare");
      expect(apart(paper.bands, figures.paperBands)).toBeLessThan(PAPER);
      if (paper.medianChange !== null)
        expect(apart(paper.medianChange, figures.medianPaperChange)).toBeLessThan(PAPER);
      const darkness = darknessOf(cells.before.map((value, i) => value - paper.before[i]));
      expect(darkness.value).toBeCloseTo(figures.darkness, 2);
      expect(darkness.told).toBe(figures.told);

      const law = inkLawOnPaper(paper.bands);
      const absorptions = PLATE_SOLIDS.map((ink) => {
        const solid = usualSolid(ink, darkness);
        const S = absorptionsOfSolid(law, solid);
        const id = ink.id as keyof typeof figures.solids;
        solid.forEach((T, c) =>
          expect(Math.abs(T / figures.solids[id][c] - 1)).toBeLessThan(SHARE_OF_SOLID),
        );
        // Half a unit of the last of four decimals on top, for absorptions at the floor.
        S.forEach((value, c) =>
          expect(Math.abs(value - figures.absorptions[id][c])).toBeLessThan(
            SHARE_OF_SOLID * value + 1e-4,
          ),
        );
        return S;
      });

      const at = new Map([...cells.places].map((place, i) => [place, i]));
      const drawn = Int32Array.from(figures.drawn, (place) => at.get(place) ?? -1);
      expect(drawn.includes(-1)).toBe(false);
      const chosen = drawnCells(cells, paper, drawn);
      const stir = stirOf(chosen.change);
      expect(stir).toBeCloseTo(figures.q, 2);
      const press = { law, absorptions, black: [false, false, false, true] };
      const prior = { offsetCovariance: paper.offsetCovariance, driftSd: 0.003, stir };
      const fits: FilmFit[] = [];
      for (const film of figures.films) {
        const fit = regressFilm(film.h, chosen, press, prior, fits.at(-1)?.ends ?? null);
        fits.push(fit);
        expect(apart(fit.losses, film.f), `f at h = ${film.h}`).toBeLessThan(LOSS);
        expect(apart(fit.raw, film.raw), `raw at h = ${film.h}`).toBeLessThan(LOSS);
        expect(apart(fit.sd, film.sd), `sd at h = ${film.h}`).toBeLessThan(LOSS);
      }
      const weights = filmWeights(
        darkness,
        fits.map(({ throughMisfit }) => throughMisfit),
      );
      expect(apart(weights, figures.films.map(({ weight }) => weight))).toBeLessThan(WEIGHT); // prettier-ignore

      const likeliest = fits[weights.indexOf(Math.max(...weights))];
      for (const cell of figures.cells) {
        const i = figures.drawn.indexOf(cell.index);
        expect(apart(chosen.logT.subarray(3 * i, 3 * i + 3), cell.x)).toBeLessThan(PAPER);
        expect(apart(chosen.change.subarray(3 * i, 3 * i + 3), cell.y)).toBeLessThan(PAPER);
        expect(Math.abs(chosen.spread[i] - cell.e)).toBeLessThan(PAPER);
        // The ambiguity of black beside colours makes these the least sharp figures of all.
        for (const [end, coverages] of [cell.mostBlack, cell.leastBlack].entries())
          expect(
            apart(likeliest.ends[end].subarray(4 * i, 4 * i + 4), coverages),
            `coverages of cell ${cell.index}`,
          ).toBeLessThan(0.02);
        for (let c = 0; c < 3; c++)
          expect(
            apart(likeliest.model.response.subarray(12 * i + 4 * c, 12 * i + 4 * c + 4), cell.G[c]),
            `G of cell ${cell.index}`,
          ).toBeLessThan(0.02);
      }
    });

    test("losses, intervals and verdicts come out, with the cells given and with others", () => {
      const { figures, cells } = read();
      const at = new Map([...cells.places].map((place, i) => [place, i]));
      const drawn = Int32Array.from(figures.drawn, (place) => at.get(place) ?? -1);
      const given = separatePlates(cells, { drawn, map: false }).plates ?? [];
      const other = separatePlates(cells, { map: false }).plates ?? [];
      expect(given).toHaveLength(4);
      const { F, low, high, verdict } = figures.plates;
      expect(given.map((plate) => plate.verdict)).toEqual(verdict);
      for (const [i, plate] of given.entries()) {
        expect(apart([plate.lost, plate.low, plate.high], [F[i], low[i], high[i]])).toBeLessThan(RESULT); // prettier-ignore
        expect(Math.abs(other[i].lost - F[i])).toBeLessThan(OTHER_DRAW);
      }
    });
  });
