import { PLATE_SOLIDS } from "../../calibration/plateSolids.ts";
import { labToXyzD50, xyzD50ToLab } from "../colour/lab.ts";
import type { Triple } from "../numeric/triple.ts";
import { quantile } from "../numeric/statistics.ts";
import { findBarePaper } from "./barePaper.ts";
import { colourantMass } from "./colourantMass.ts";
import { colourCost } from "./colourCost.ts";
import { type Darkness, darknessOf } from "./darkness.ts";
import { drawCells } from "./drawCells.ts";
import { type DrawnCells, drawnCells } from "./drawnCells.ts";
import { DRIFT_SD } from "./filmPrior.ts";
import { type FilmFit, type Press, regressFilm } from "./filmRegression.ts";
import { FILMS, filmWeights } from "./filmWeights.ts";
import { absorptionsOfSolid, inkLawOnPaper, logTransmission } from "./inkLaw.ts";
import { type LossInterval, mixtureInterval } from "./mixtureInterval.ts";
import { ownPlaces } from "./ownPlaces.ts";
import { type PaperField, paperField } from "./paperField.ts";
import type { PlateCells } from "./plateCells.ts";
import type { Plate, PlateInk, PlateModel, PlateSeparation, WorstTile } from "./plates.ts";
import { plateVerdict } from "./plateVerdict.ts";
import { plateWarnings } from "./plateWarnings.ts";
import { bandsOfXyz, xyzOfBands } from "../print/plateBands.ts";
import { stirOf } from "./stirOf.ts";
import { MAP_CELLS, TILE_MM, type TileMap, tileMap } from "./tileMap.ts";
import { usualSolid } from "./usualSolids.ts";

/** The inks of a usual press of four. */
export const USUAL_INKS: readonly PlateInk[] = PLATE_SOLIDS.map((usual) => ({
  id: usual.id,
  name: usual.id,
  black: usual.black,
  usual,
  picked: null,
}));

export interface SeparationOptions {
  /** The inks that the press has; plates known to be absent are left out. One to four of them. Default {@link USUAL_INKS}. */
  readonly inks?: readonly PlateInk[];
  /** Drift of the exponent that the card leaves between both scans. Default 0.003. */
  readonly driftSd?: number;
  /** Of the draw of cells. Default 1. */
  readonly seed?: number;
  /** Indices of the cells to draw. Default: 2000 by the seed. */
  readonly drawn?: Int32Array;
  /** Whether to make the map of tiles where a plate lost or is uncertain. Default true. */
  readonly map?: boolean;
}

const DRAWN_CELLS = 2000;
const SEED = 1;
const FEWEST_CELLS = 300;
const FEWEST_TILES = 8;
/** A tile counts when this many of its cells speak. */
const CELLS_A_TILE = 60;
const MOST_INKS = 4;
const DENSE = 0.95;
const OUTSIDE_RESIDUAL = 0.1;
const SMOOTH = 0.5;
const FILM_SHOWN_FROM = 0.1;
const ANSWER_LIMIT = 0.4;
const LARGE_MISFIT = 0.1;

/**
 * How much of its colourant each printing ink of a sheet lost, from cells of 1 mm before and after.
 * @throws {RangeError} No inks, more than four, an ink without a solid, or no sheet at all to draw from among the indices given.
 */
export function separatePlates(
  cells: PlateCells,
  options: SeparationOptions = {},
): PlateSeparation {
  const { inks = USUAL_INKS, driftSd = DRIFT_SD, seed = SEED, map: withMap = true } = options;
  if (inks.length === 0 || inks.length > MOST_INKS)
    throw new RangeError(`Expected one to ${MOST_INKS} inks, received ${inks.length}.`);
  const tiles = tilesWithCells(cells);
  if (cells.usable.length < FEWEST_CELLS || tiles < FEWEST_TILES)
    return refusal(cells, tiles, null, null);

  const paper = paperField(cells, findBarePaper(cells));
  const darkness = darknessOf(cells.before.map((value, i) => value - paper.before[i]));
  const press = pressOf(inks, paper, darkness);
  const solids = press.absorptions.map((S) => logTransmission(press.law, S));
  const indices = options.drawn ?? drawCells(cells.usable, DRAWN_CELLS, seed);
  const drawn = drawnCells(cells, paper, indices);
  const stir = stirOf(drawn.change);
  const prior = { offsetCovariance: paper.offsetCovariance, driftSd, stir };
  const fits: FilmFit[] = [];
  for (const film of FILMS)
    fits.push(regressFilm(film, drawn, press, prior, fits.at(-1)?.ends ?? null));
  const weights = filmWeights(
    darkness,
    fits.map(({ throughMisfit }) => throughMisfit),
  );
  const likeliest = fits[weights.indexOf(Math.max(...weights))];
  const own = ownPlaces(likeliest.ends[0], drawn.spread, press.black);
  const losses = inks.map((ink, i): LossInterval => {
    const interval = mixtureInterval(
      fits.map(({ film, losses: f, raw, sd }, h) => ({
        film,
        weight: weights[h],
        loss: f[i],
        raw: raw[i],
        sd: sd[i],
      })),
      stir,
      ink.black,
    );
    return own[i] ? interval : { ...interval, low: 0 };
  });
  const verdicts = losses.map((loss, i) =>
    plateVerdict(loss, quantile(everyNth(likeliest.model.coverage, inks.length, i), DENSE)),
  );
  const model = modelOf({ cells, tiles, paper, darkness, fits, weights, likeliest, drawn, press });
  if (verdicts.every((verdict) => verdict === "absent")) return refusal(cells, tiles, paper, darkness); // prettier-ignore

  const open = verdicts.map((verdict) => verdict === "lost" || verdict === "uncertain");
  const map =
    withMap && open.includes(true)
      ? mapOf({ cells, paper, likeliest, press, losses, open, stir, seed })
      : null;
  const costs = colourCost(likeliest, drawn, press);
  const plates = inks.map((ink, i): Plate => {
    const loss = verdicts[i] === "absent" ? { ...losses[i], low: 0 } : losses[i];
    const T = solids[i].map(Math.exp);
    const ends = likeliest.ends.map((end) => meanOf(everyNth(end, inks.length, i)));
    const meanCoverage = [Math.min(...ends), Math.max(...ends)] as const;
    const printedMm2 = [
      meanCoverage[0] * cells.places.length,
      meanCoverage[1] * cells.places.length,
    ] as const;
    const mass = colourantMass({ solid: [T[0], T[1], T[2]], printedMm2, ...loss });
    return {
      id: ink.id,
      name: ink.name,
      solidLab: xyzD50ToLab(
        xyzOfBands([T[0] * paper.bands[0], T[1] * paper.bands[1], T[2] * paper.bands[2]]),
      ),
      source: ink.picked === null ? "usual" : "picked",
      meanCoverage,
      lost: loss.lost,
      low: loss.low,
      high: loss.high,
      verdict: verdicts[i],
      ownPlaces: own[i],
      deltaE00: costs[i],
      worst: map === null || !open[i] ? null : worstTile(map, i, cells),
      mass: { printed: mass.printed, lost: mass.lost, lostBounds: mass.lostBounds },
      changed: answersOtherwise(likeliest, i) && model.misfit > LARGE_MISFIT,
    };
  });
  return {
    plates,
    model,
    warnings: plateWarnings({
      fromLights: paper.source === "from-lights",
      outside: shareOutside(likeliest, drawn),
      film: model.meanFilm,
      paperChange: model.paperChange,
      inks: inks
        .map(({ name, black }, i) => ({ name, black, logT: solids[i] }))
        .filter(({ black }) => !black),
    }),
    map,
  };
}

function pressOf(inks: readonly PlateInk[], paper: PaperField, darkness: Darkness): Press {
  const law = inkLawOnPaper(paper.bands);
  const absorptions = inks.map(({ id, usual, picked }) => {
    if (picked !== null) {
      const [r, g, b] = bandsOfXyz(labToXyzD50(picked)).map((band, c) => band / paper.bands[c]);
      return absorptionsOfSolid(law, [r, g, b]);
    }
    if (usual === null) throw new RangeError(`Expected a picked solid of the ink ${id}.`);
    return absorptionsOfSolid(law, usualSolid(usual, darkness));
  });
  return { law, absorptions, black: inks.map(({ black }) => black) };
}

function mapOf(options: {
  readonly cells: PlateCells;
  readonly paper: PaperField;
  readonly likeliest: FilmFit;
  readonly press: Press;
  readonly losses: readonly LossInterval[];
  readonly open: readonly boolean[];
  readonly stir: number;
  readonly seed: number;
}): TileMap {
  const { cells, paper, likeliest, press, losses, open, stir, seed } = options;
  const indices = drawCells(cells.usable, MAP_CELLS, seed);
  const map = tileMap({
    fit: likeliest,
    cells: drawnCells(cells, paper, indices),
    places: Int32Array.from(indices, (i) => cells.places[i]),
    cellMm2: cells.places.length / indices.length,
    width: cells.width,
    height: cells.height,
    black: press.black,
    lost: losses.map(({ lost }) => lost),
    stir,
  });
  // Where nothing is claimed and nothing is open there is nothing to map.
  return {
    ...map,
    plates: map.plates.map((tiles, i) => (open[i] ? tiles : tiles.map(() => null))),
  };
}

function worstTile(
  { columns, plates }: TileMap,
  plate: number,
  cells: PlateCells,
): WorstTile | null {
  let worst = -1;
  plates[plate].forEach((tile, at) => {
    if (tile !== null && tile.lost > (plates[plate][worst]?.lost ?? -1)) worst = at;
  });
  const tile = plates[plate][worst] ?? null;
  if (tile === null) return null;
  const row = Math.floor(worst / columns);
  const column = worst - row * columns;
  const [x, y] = [column * TILE_MM, row * TILE_MM];
  const width = Math.min(TILE_MM, cells.width - x);
  const height = Math.min(TILE_MM, cells.height - y);
  return { ...tile, column, row, boxMm: { x, y, width, height } };
}

/** What a model always says where the plates were separated. */
type SeparatedModel = PlateModel & {
  readonly paperChange: Triple;
  readonly misfit: number;
  readonly meanFilm: number;
};

function modelOf(options: {
  readonly cells: PlateCells;
  readonly tiles: number;
  readonly paper: PaperField;
  readonly darkness: Darkness;
  readonly fits: readonly FilmFit[];
  readonly weights: Float64Array;
  readonly likeliest: FilmFit;
  readonly drawn: DrawnCells;
  readonly press: Press;
}): SeparatedModel {
  const { cells, tiles, paper, darkness, fits, weights, likeliest, drawn, press } = options;
  const over = (value: (fit: FilmFit) => number): number =>
    fits.reduce((sum, fit, h) => sum + weights[h] * value(fit), 0);
  const [r, g, b] = [0, 1, 2].map(
    (c) =>
      (paper.medianChange?.[c] ?? 0) + over(({ theta, unknowns }) => theta[unknowns.offset(c)]),
  );
  const shown = FILMS.filter((_, h) => weights[h] >= FILM_SHOWN_FROM);
  const black = press.black.indexOf(true);
  const k = press.black.length;
  let squares = 0;
  likeliest.model.logT.forEach((m, i) => (squares += (drawn.logT[i] - m) ** 2));
  return {
    ...emptyModel(cells, tiles, paper, darkness),
    paperChange: [r, g, b],
    blackAmbiguity:
      black < 0 || k < 2
        ? null
        : meanOf(everyNth(likeliest.ends[0], k, black).map((c, i) => Math.abs(c - likeliest.ends[1][i * k + black]))), // prettier-ignore
    misfit: Math.sqrt(squares / drawn.logT.length),
    film: [shown[0], shown[shown.length - 1]],
    meanFilm: over(({ film }) => film),
    likeliestFilm: likeliest.film,
    addedLight: over(({ theta, unknowns }) =>
      [0, 1, 2].reduce((sum, c) => sum + theta[unknowns.light(c)] / 3, 0),
    ),
  };
}

function emptyModel(
  cells: PlateCells,
  tiles: number,
  paper: PaperField | null,
  darkness: Darkness | null,
): PlateModel {
  return {
    bands: "soft",
    paper: paper?.source ?? null,
    paperChange: paper?.medianChange ?? null,
    cells: cells.usable.length,
    tiles,
    blackAmbiguity: null,
    misfit: null,
    film: null,
    meanFilm: null,
    likeliestFilm: null,
    darkness: darkness?.value ?? null,
    darknessTold: darkness?.told ?? false,
    addedLight: null,
    refused: null,
  };
}

function refusal(
  cells: PlateCells,
  tiles: number,
  paper: PaperField | null,
  darkness: Darkness | null,
): PlateSeparation {
  return {
    plates: null,
    model: { ...emptyModel(cells, tiles, paper, darkness), refused: "too-little-print" },
    warnings: [],
    map: null,
  };
}

function tilesWithCells({ width, places, usable }: PlateCells): number {
  const counts = new Map<number, number>();
  const columns = Math.ceil(width / TILE_MM);
  for (const i of usable) {
    const row = Math.floor(places[i] / width);
    const column = places[i] - row * width;
    const tile = Math.floor(row / TILE_MM) * columns + Math.floor(column / TILE_MM);
    counts.set(tile, (counts.get(tile) ?? 0) + 1);
  }
  return [...counts.values()].filter((count) => count >= CELLS_A_TILE).length;
}

/** Share of the smooth cells that no mixture of the inks prints, dark bands counted by the root of their light as in the fit. */
function shareOutside({ model }: FilmFit, { logT, spread }: DrawnCells): number {
  let count = 0;
  let smooth = 0;
  for (let cell = 0; cell < spread.length; cell++) {
    if (spread[cell] > SMOOTH) continue;
    smooth++;
    let most = 0;
    for (let i = 3 * cell; i < 3 * cell + 3; i++)
      most = Math.max(most, Math.abs(logT[i] - model.logT[i]) * Math.exp(logT[i] / 2));
    if (most > OUTSIDE_RESIDUAL) count++;
  }
  return count / Math.max(1, smooth);
}

function answersOtherwise({ theta, unknowns, losses }: FilmFit, plate: number): boolean {
  return [0, 1, 2].some(
    (c) =>
      losses[plate] > 0 &&
      Math.abs(theta[unknowns.answer(plate, c)]) > ANSWER_LIMIT * losses[plate],
  );
}

function everyNth(values: Float64Array, n: number, first: number): Float64Array {
  return Float64Array.from({ length: values.length / n }, (_, i) => values[i * n + first]);
}

function meanOf(values: Float64Array): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
