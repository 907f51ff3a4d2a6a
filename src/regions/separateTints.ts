import type { Triple } from "../numeric/triple.ts";
import { erodeCores } from "./erodeCores.ts";
import type { LabImage } from "../grid/labImage.ts";
import type { LabHistogram } from "./labHistogram.ts";
import { modeStatistics } from "./modeStatistics.ts";
import { MOST_STAIN_SHARPNESS, namePaper } from "./namePaper.ts";
import { reduceLab } from "../grid/reduceLab.ts";
import { unrelateToWhite } from "./relateToWhite.ts";
import { seekModes } from "./seekModes.ts";
import { segment } from "./segment.ts";

/** Bandwidth of the second look at the paper, in parts of the first. */
const FINER = 0.6;
/** A tint is worth a name of its own from this area on, counted 1 mm inside its outlines. */
const LEAST_TINT_MM2 = 100;

/** A sheet in two lights, all of one shape. */
interface LightedSheet {
  /** Low-passed, edges sharpened, relative to `white`. */
  readonly relative: LabImage;
  /** Low-passed only, CIELAB D50. */
  readonly smooth: LabImage;
  readonly mask: Uint8Array;
  readonly white: Triple;
}

/**
 * Takes pale tints out of the paper. A light blue sky of a few dots lies so near to bare paper that the mode of the paper,
 * far larger, swallows it; the paper's own change would then be measured on ink. So the paper's colours are sought once more
 * with a smaller bandwidth, and what has a sharp printed border, unlike soil and browning, is set apart.
 * @param modes Colours found with `bandwidth`, relative to the view's white.
 * @returns `modes`, where tints were found with the paper's own replaced by the paper without them, and by each of them.
 */
export function separateTints(
  view: LightedSheet,
  histogram: LabHistogram,
  modes: readonly Triple[],
  bandwidth: number,
): Triple[] {
  const { relative, smooth, mask, white } = halved(view);
  const look = (colours: readonly Triple[]) => {
    const cells = segment(relative, mask, colours);
    const statistics = modeStatistics(
      smooth,
      cells.labels,
      mask,
      colours.map((lab) => unrelateToWhite(lab, white)),
    );
    return { cells, statistics, paper: namePaper(statistics) };
  };

  const first = look(modes).paper;
  if (first === null) return [...modes];
  const asPaper = new Set([first.main, ...first.others]);
  const printed = modes.filter((_, k) => !asPaper.has(k));
  const finer = seekModes(histogram, FINER * bandwidth)
    .map((mode) => mode.lab)
    .filter((lab) => asPaper.has(nearest(modes, lab)));
  if (finer.length < 2) return [...modes];

  const colours = [...printed, ...finer];
  const { cells, statistics, paper } = look(colours);
  if (paper === null || paper.main < printed.length) return [...modes];
  const { mmPerCell } = relative;
  const noEdges = new Uint8Array(cells.labels.length);
  const cores = erodeCores(cells.labels, relative, noEdges, cells.strangers);
  const coreCells = new Int32Array(256);
  for (let i = 0; i < cores.length; i++) coreCells[cores[i]]++;
  const tints = finer.filter((_, f) => {
    const k = printed.length + f;
    return (
      k !== paper.main &&
      !paper.others.includes(k) &&
      coreCells[k + 1] * mmPerCell ** 2 >= LEAST_TINT_MM2 &&
      // NaN where they do not touch: then nothing speaks against two colours.
      !(statistics[k].sharpness[paper.main] <= MOST_STAIN_SHARPNESS)
    );
  });
  return tints.length === 0 ? [...modes] : [...printed, colours[paper.main], ...tints];
}

/** Every second cell of the mask, means over two by two cells of the rest: detail of half a millimetre is enough. */
function halved({ relative, smooth, mask, white }: LightedSheet): LightedSheet {
  const half = reduceLab(relative, 2);
  const halfMask = new Uint8Array(half.width * half.height);
  for (let y = 0; y < half.height; y++)
    for (let x = 0; x < half.width; x++)
      halfMask[y * half.width + x] = mask[2 * y * relative.width + 2 * x];
  return { relative: half, smooth: reduceLab(smooth, 2), mask: halfMask, white };
}

function nearest(colours: readonly Triple[], [L, a, b]: Triple): number {
  const distances = colours.map((c) => Math.hypot(c[0] - L, c[1] - a, c[2] - b));
  return distances.indexOf(Math.min(...distances));
}
