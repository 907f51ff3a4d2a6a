import type { Triple } from "../numeric/triple.ts";
import { type InkGroup, applyCorrections, PAPER_ID } from "./applyCorrections.ts";
import { erodeCores } from "./erodeCores.ts";
import { fillPolygon } from "../grid/fillPolygon.ts";
import { groupColours, groupOfSeed } from "./groupColours.ts";
import type { InkCorrections } from "./inkCorrections.ts";
import { type KnownPaper, paperOfKnown } from "./knownPaper.ts";
import { labHistogram } from "./labHistogram.ts";
import { lightestOf } from "./lightestOf.ts";
import { listInks } from "./listInks.ts";
import { maskOffColour } from "./maskOffColour.ts";
import { foldMixtures, mixturesAtEdges } from "./mixturesAtEdges.ts";
import { modeStatistics } from "./modeStatistics.ts";
import { type NamedPaper, namePaper } from "./namePaper.ts";
import {
  type Paper,
  type RegionMap,
  BLURRED,
  OFF_COLOUR,
  PAPER_LABEL,
  STRANGER,
} from "./regionMap.ts";
import { relabel } from "./relabel.ts";
import { relateToWhite, toWhite, unrelateToWhite } from "./relateToWhite.ts";
import { seedColour } from "./seedColour.ts";
import { agreesWithLights, seekPaper, type SoughtPaper } from "./seekPaper.ts";
import { seekModes } from "./seekModes.ts";
import { segment } from "./segment.ts";
import { separateTints } from "./separateTints.ts";
import type { SheetView } from "./sheetView.ts";

/** How finely colours are told apart. */
export type Detail = "coarser" | "normal" | "finer";

/** Bandwidth of the mode seeking in Lab units; the number of inks found repeats at each of them. */
export const BANDWIDTH: Readonly<Record<Detail, number>> = { coarser: 6.5, normal: 5, finer: 4 };

export interface RegionOptions {
  /** Default `normal`. */
  readonly detail?: Detail;
  readonly corrections?: InkCorrections;
  /** Bare paper, where it is known from outside the art. */
  readonly paper?: KnownPaper;
}

/** Labels beyond the paper's are left for inks; more colours than this are never told apart. */
const MOST_COLOURS = 254;

/**
 * Cells further than this from their colour, in bandwidths, enter no mean: a gradient, a stain, or a colour too rare for a name.
 * In the sample scenes 99.9 % of the cells of a printed solid and of bare paper keep within 1.
 */
const MOST_SPREAD = 1.5;

/** The same for paper that was sought out in an art without margins: pale tints lie close by. */
const MOST_SOUGHT_SPREAD = 0.6;

/**
 * Finds the ink regions of a scan: colours, paper, names, contiguous areas, cores for measuring; then replays the
 * user's corrections. Only the before scan is treated so: its labels are carried to the after scan, because fading changes
 * colours but must not change membership.
 * @param view Of the before scan.
 * @throws {LastrinseError} `wrong-use`: a correction names an unknown ink, a taken name, or a place off the sheet.
 */
export function findRegions(view: SheetView, options: RegionOptions = {}): RegionMap {
  const { detail = "normal", corrections = { file: "", steps: [] } } = options;
  const { image, smooth, crisp, edges, sheet } = view;
  const { width, height, mmPerCell } = image;

  // Colours are sought relative to the lightest part of the sheet.
  const white = lightestOf(smooth, sheet.mask);
  const relative = relateToWhite(crisp, white);
  const bandwidth = BANDWIDTH[detail];
  const histogram = labHistogram(relative, sheet.mask);
  const modes = separateTints(
    { relative, smooth, mask: sheet.mask, white },
    histogram,
    seekModes(histogram, bandwidth).map((mode) => mode.lab),
    bandwidth,
  ).slice(0, MOST_COLOURS - 1);
  const look = () => {
    const segmented = segment(relative, sheet.mask, modes);
    const labs = modes.map((lab) => unrelateToWhite(lab, white));
    return {
      segmented,
      colours: labs,
      statistics: modeStatistics(smooth, segmented.labels, sheet.mask, labs),
    };
  };
  let { segmented: cells, colours, statistics } = look();
  const evidence = seekPaper(smooth, sheet.mask);
  const seen = evidence.source === "bare" || evidence.source === "edge";
  // What the sheet itself shows is better than its other face.
  const known =
    options.paper === undefined || (options.paper.source === "inside-face" && seen)
      ? null
      : paperOfKnown(options.paper, smooth, sheet.mask);
  let paper = known === null ? namePaper(statistics) : null;
  if (paper !== null && !agreesWithLights(colours[paper.main], evidence)) paper = null;
  const { source, lab, sigmaDeltaE00 } = known ?? evidence;
  const sought: SoughtPaper = { source, lab, sigmaDeltaE00 };
  const added = paper === null && lab !== null && source !== "estimated";
  if (added) {
    modes.push(toWhite(lab, white));
    ({ segmented: cells, colours, statistics } = look());
    const main = modes.length - 1;
    if (known !== null) for (const cell of known.cells) cells.labels[cell] = main + 1;
    if (statistics[main].cells > 0) paper = { main, others: [] };
  }
  const mixtures = mixturesAtEdges(statistics, cells.labels, edges);
  const ofItsOwn = statistics.map((mode, k) =>
    mixtures.some(({ mixture }) => mixture === k) ? { ...mode, cells: 0 } : mode,
  );
  const found = groupColours(ofItsOwn, paper, lab);

  // Names are those of the sheet as it was found; a split then adds its colour and all cells are labelled anew.
  const seeds = corrections.steps.flatMap((step) =>
    step.action === "split" ? [seedColour(relative, sheet, step.seedPixels, corrections.file)] : [],
  );
  if (seeds.length > 0) cells = segment(relative, sheet.mask, [...modes, ...seeds]);
  const splits = seeds.map((seed, s): InkGroup => {
    const lab = unrelateToWhite(seed, white);
    return { ...groupOfSeed(lab, found), members: [colours.length + s + 1] };
  });
  const groups = applyCorrections(found, corrections, splits);

  const { labels, strangers } = cells;
  for (const step of corrections.steps)
    if (step.action === "exclude") fillPolygon(labels, image, step.polygonPixels, 0);
  const unfit = edges.slice();
  const off2 = (i: number, k: number): number =>
    (relative.L[i] - modes[k][0]) ** 2 +
    (relative.a[i] - modes[k][1]) ** 2 +
    (relative.b[i] - modes[k][2]) ** 2;
  foldMixtures(mixtures, labels, unfit, (i, [p, q]) => off2(i, p) <= off2(i, q));
  const blurred = unfit.slice();
  maskOffColour(unfit, relative, labels, [...modes, ...seeds], (k) =>
    added && k === paper?.main ? MOST_SOUGHT_SPREAD * bandwidth : MOST_SPREAD * bandwidth,
  );
  const inkGroups = relabel(labels, groups);

  const cores = erodeCores(labels, image, unfit, strangers);
  return {
    width,
    height,
    labels,
    cores,
    mixed: mixedCells({ blurred, unfit, strangers }),
    ...listInks(labels, cores, image, inkGroups),
    paper: describePaper({ labels, cores, mmPerCell, groups, colours, paper }),
    sought,
    sheet,
  };
}

function mixedCells(of: {
  readonly blurred: Uint8Array;
  readonly unfit: Uint8Array;
  readonly strangers: Uint8Array;
}): Uint8Array {
  return of.unfit.map((unfit, i) => {
    if (of.strangers[i] !== 0) return STRANGER;
    if (of.blurred[i] !== 0) return BLURRED;
    return unfit === 0 ? 0 : OFF_COLOUR;
  });
}

function describePaper({
  labels,
  cores,
  mmPerCell,
  groups,
  colours,
  paper,
}: {
  readonly labels: Uint8Array;
  readonly cores: Uint8Array;
  readonly mmPerCell: number;
  readonly groups: readonly InkGroup[];
  readonly colours: readonly Triple[];
  readonly paper: NamedPaper | null;
}): Paper | null {
  const group = groups.find(({ id }) => id === PAPER_ID);
  if (group === undefined || paper === null) return null;
  let cells = 0;
  let coreCells = 0;
  for (let i = 0; i < labels.length; i++) {
    if (labels[i] === PAPER_LABEL) cells++;
    if (cores[i] === PAPER_LABEL) coreCells++;
  }
  return {
    modeLab: colours[paper.main],
    otherLabs: paper.others.map((k) => colours[k]),
    cells,
    coreCells,
    areaCm2: (cells * mmPerCell ** 2) / 100,
  };
}
