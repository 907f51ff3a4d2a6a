import type { Triple } from "../colour/triple.ts";
import { LastrinseError } from "../errors.ts";
import type { InkGroup } from "./applyCorrections.ts";
import { applyCorrections, PAPER_ID } from "./applyCorrections.ts";
import { edgeMask } from "./edgeMask.ts";
import { erodeCores } from "./erodeCores.ts";
import type { Polygon } from "./fillPolygon.ts";
import { fillPolygon } from "./fillPolygon.ts";
import type { Sheet } from "./findSheet.ts";
import { findSheet } from "./findSheet.ts";
import type { InkCorrections } from "./inkCorrections.ts";
import type { LabImage } from "./labImage.ts";
import { labHistogram } from "./labHistogram.ts";
import { listInks } from "./listInks.ts";
import { modeStatistics } from "./modeStatistics.ts";
import { nameInks } from "./nameInks.ts";
import type { NamedPaper } from "./namePaper.ts";
import { namePaper } from "./namePaper.ts";
import type { Paper, RegionMap } from "./regionMap.ts";
import { PAPER_LABEL } from "./regionMap.ts";
import { seekModes } from "./seekModes.ts";
import { segment } from "./segment.ts";
import { sharpenEdges } from "./sharpenEdges.ts";
import { smoothLab } from "./smoothLab.ts";

/** How finely colours are told apart. */
export type Detail = "coarser" | "normal" | "finer";

/** Bandwidth of the mode seeking in Lab units; the number of inks found repeats at each of them. */
export const BANDWIDTH: Readonly<Record<Detail, number>> = { coarser: 6.5, normal: 5, finer: 4 };

export interface RegionOptions {
  /** Outline of the card, in full pixels; kept clear of by 2 mm. */
  readonly exclude?: readonly Polygon[];
  /** Default `normal`. */
  readonly detail?: Detail;
  readonly corrections?: InkCorrections;
}

/** Labels beyond the paper's are left for inks; more colours than this are never told apart. */
const MOST_COLOURS = 254;
/** Half the side of the square over which a split takes its colour. */
const SEED_MM = 0.5;

/**
 * Finds the ink regions of a scan: sheet, colours, paper, names, contiguous areas, cores for measuring; then replays the
 * user's corrections. Only the before scan is treated so: its labels are carried to the after scan, because fading changes
 * colours but must not change membership.
 * @param image Lab of the before scan at about 100 to 150 cells per inch.
 * @throws {LastrinseError} `wrong-use`: a correction names an unknown ink, a taken name, or a place off the sheet.
 */
export function findRegions(image: LabImage, options: RegionOptions = {}): RegionMap {
  const { exclude = [], detail = "normal", corrections = { file: "", steps: [] } } = options;
  const { width, height, mmPerCell } = image;
  const smooth = smoothLab(image);
  const edges = edgeMask(smooth);
  const crisp = sharpenEdges(smooth, edges);
  const sheet = findSheet(crisp, exclude);

  const colours = seekModes(labHistogram(crisp, sheet.mask), BANDWIDTH[detail])
    .slice(0, MOST_COLOURS)
    .map((mode) => mode.lab);
  let cells = segment(crisp, sheet.mask, colours);
  const statistics = modeStatistics(smooth, cells.labels, sheet.mask, colours);
  const paper = namePaper(statistics);
  const found = groupColours(
    statistics.map((mode) => mode.cells),
    colours,
    paper,
  );

  const seeds = corrections.steps.flatMap((step) =>
    step.action === "split" ? [seedColour(crisp, sheet, step.seedPixels, corrections.file)] : [],
  );
  if (seeds.length > 0) cells = segment(crisp, sheet.mask, [...colours, ...seeds]);
  const paperLab = paper === null ? null : colours[paper.main];
  const splits = seeds.map((lab, s): InkGroup => {
    const all = [...found.filter((group) => group.id !== PAPER_ID).map((group) => group.lab), lab];
    const { id, kind } = nameInks(all, paperLab)[all.length - 1];
    return { id, kind, lab, members: [colours.length + s + 1] };
  });
  const groups = applyCorrections(found, corrections, splits);

  const { labels, strangers } = cells;
  for (const step of corrections.steps)
    if (step.action === "exclude") fillPolygon(labels, image, step.polygonPixels, 0);
  const inkGroups = relabel(labels, groups);

  const cores = erodeCores(labels, width, height, mmPerCell, edges, strangers);
  return {
    width,
    height,
    labels,
    cores,
    ...listInks(labels, cores, width, height, mmPerCell, inkGroups),
    paper: describePaper(labels, cores, mmPerCell, groups, colours, paper),
    sheet,
  };
}

/** The paper and the named inks; colours without cells (all of whose pieces were folded away) are left out. */
function groupColours(
  cells: readonly number[],
  colours: readonly Triple[],
  paper: NamedPaper | null,
): InkGroup[] {
  const paperColours = paper === null ? [] : [paper.main, ...paper.others];
  const printed = colours
    .map((_, k) => k)
    .filter((k) => cells[k] > 0 && !paperColours.includes(k))
    .sort((p, q) => cells[q] - cells[p] || p - q);
  const names = nameInks(
    printed.map((k) => colours[k]),
    paper === null ? null : colours[paper.main],
  );
  const inks = printed.map((k, n): InkGroup => ({
    ...names[n],
    lab: colours[k],
    members: [k + 1],
  }));
  if (paper === null) return inks;
  const members = paperColours.map((k) => k + 1);
  return [{ id: PAPER_ID, kind: "ink", lab: colours[paper.main], members }, ...inks];
}

/** Mean colour around a place given by the user. */
function seedColour(
  image: LabImage,
  sheet: Sheet,
  [X, Y]: readonly [number, number],
  file: string,
): Triple {
  const { width, height, mmPerCell, stepX, stepY } = image;
  const x = Math.round((X + 0.5) / stepX - 0.5);
  const y = Math.round((Y + 0.5) / stepY - 0.5);
  const reach = Math.max(1, Math.round(SEED_MM / mmPerCell));
  let n = 0;
  const sum = [0, 0, 0];
  for (let v = Math.max(0, y - reach); v <= Math.min(height - 1, y + reach); v++)
    for (let u = Math.max(0, x - reach); u <= Math.min(width - 1, x + reach); u++) {
      const i = v * width + u;
      if (sheet.mask[i] === 0) continue;
      n++;
      sum[0] += image.L[i];
      sum[1] += image.a[i];
      sum[2] += image.b[i];
    }
  if (n === 0)
    throw new LastrinseError(
      "wrong-use",
      `Expected the seed of a split on the sheet, for ${file}, received ${X}, ${Y}.`,
      {
        remedy: `Give x, y in pixels of the before scan, inside ${boxText(sheet, image)}.`,
        input: file,
      },
    );
  return [sum[0] / n, sum[1] / n, sum[2] / n];
}

function boxText(sheet: Sheet, { stepX, stepY }: LabImage): string {
  if (sheet.box === null) return "the sheet";
  const [x, y, w, h] = sheet.box;
  const corner = (u: number, v: number): string =>
    `${Math.round(u * stepX)}, ${Math.round(v * stepY)}`;
  return `${corner(x, y)} to ${corner(x + w, y + h)}`;
}

/**
 * Turns labels of the segmentation into those of the groups, in place: inks by area, then paper as 255.
 * @returns The groups of the inks by label; groups without cells are left out.
 */
function relabel(labels: Uint8Array, groups: readonly InkGroup[]): InkGroup[] {
  const count = new Int32Array(256);
  for (let i = 0; i < labels.length; i++) count[labels[i]]++;
  const cellsOf = (group: InkGroup): number =>
    group.members.reduce((sum, member) => sum + count[member], 0);
  const inks = groups
    .filter((group) => group.id !== PAPER_ID && cellsOf(group) > 0)
    .sort((p, q) => cellsOf(q) - cellsOf(p));
  const label = new Uint8Array(256);
  inks.forEach((group, n) => group.members.forEach((member) => (label[member] = n + 1)));
  for (const group of groups)
    if (group.id === PAPER_ID) for (const member of group.members) label[member] = PAPER_LABEL;
  for (let i = 0; i < labels.length; i++) labels[i] = label[labels[i]];
  return inks;
}

function describePaper(
  labels: Uint8Array,
  cores: Uint8Array,
  mmPerCell: number,
  groups: readonly InkGroup[],
  colours: readonly Triple[],
  paper: NamedPaper | null,
): Paper | null {
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
