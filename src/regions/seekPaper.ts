import { blockMiddles } from "../grid/blockMiddles.ts";
import { ciede2000 } from "../colour/ciede2000.ts";
import { complement } from "../grid/complement.ts";
import { components } from "../grid/components.ts";
import { farFrom } from "../grid/farFrom.ts";
import type { LabImage } from "../grid/labImage.ts";
import { reduceLab } from "../grid/reduceLab.ts";
import { median, quantile } from "../numeric/statistics.ts";
import type { Triple } from "../numeric/triple.ts";
import type { PaperSource } from "../results/compareResult.ts";
import { labOfSoftBands, softBands } from "../print/softBands.ts";

/**
 * Which paper was found: from bare places, the trimmed edge, a survey of the inside face, the user's hand, or `estimated` from the lights of the art
 * alone.
 */
export interface SoughtPaper {
  readonly source: PaperSource;
  /** CIELAB D50; null where the source is `none`. */
  readonly lab: Triple | null;
  /** How far that may be from the bare paper (one standard deviation); null where nothing is known. */
  readonly sigmaDeltaE00: number | null;
}

/** Side of a cell: wider than the dots of a screen, narrower than a patch. */
const CELL_MM = 0.5;
/** The sheet's outermost cells hold light of the bed. */
const RIM_CLEAR_MM = 0.6;
/** The lights of a sheet: above all but this share in each band. */
const LIGHTS = 0.9995;
/**
 * Bare cells lie within this of the lights (ln) in each band, evenly so: clean paper first, then paper that browned unevenly. Once the paper's own
 * scatter is known, further where it is large.
 */
const FIRST = [
  { darker: 0.12, uneven: 0.08 },
  { darker: 0.3, uneven: 0.16 },
] as const;
const MOST_DARKER = 0.45;
const MOST_UNEVEN = 0.22;
const ROUNDS = 4;
/** Least and greatest deviation that such paper can have. */
const OWN_SD = 0.012;
const MOST_SD = 0.06;
/**
 * Paper is a pile of cells close below the lights: in rendered covers and the sample it scatters by 0.009 to 0.027 and lies 0.015 to 0.06 below, lights of
 * an art in continuous tone by 0.054 and more and 0.10 and more.
 */
const MOST_PILE_SD = 0.04;
const MOST_PILE_BELOW = 0.15;
/** With less of the sheet than this the bare cells of an art that runs off the sheet carry a tint. */
const BELIEVED_SHARE = 0.04;
/** A bare patch: cells this near to the lights, together at least so large in one piece, its rim left out. */
const PATCH_DARKER = 0.07;
const LEAST_PATCH_MM2 = 6;
/** Of cells twice as far from the lights it holds no more than this times as many: it ends where it ends, where a light of the art fades out. */
const MOST_PATCH_GROWTH = 1.7;
/** Bare cells of which this share lies within that distance of the outline are the trimmed edge. */
const EDGE_MM = 2.5;
const EDGE_SHARE = 0.7;
/** Lights of an art in continuous tone lie this much below its paper (ln). */
const LIGHTS_BELOW = 0.02;
/** Uncertainty of each way, in dE00: paper that is believed differs from place to place; a patch may be a pale tint; the lights of an art may all be tinted. */
const BARE_SIGMA = 0.3;
const PATCH_SIGMA = 1.2;
const ESTIMATED_SIGMA = 3;
/** Lights darker than this (Y of the diffuser), or stronger than paper, tell nothing of it. */
const LEAST_PAPER_L = 60;
const MOST_PAPER_CHROMA = 34;

/** Even cells near the lights, by their place in the list of cells. */
interface Pile {
  readonly cells: readonly number[];
  readonly middle: Triple;
  /** Largest scatter of a band. */
  readonly sd: number;
}

/** Which of the paper's colours a sheet shows by itself, with the lights that every ink takes from. */
export interface PaperEvidence extends SoughtPaper {
  /** ln of the lights in three bands. */
  readonly lights: Triple;
}

/**
 * Seeks the bare paper from what is lightest in every band: inks only take light away, so the paper is the corner of all colours of the sheet.
 * A large share of even cells there is paper. A small one is, where it hangs together; else the paper is only estimated.
 * @param image Low-passed. @param mask 1 on the sheet.
 */
export function seekPaper(image: LabImage, mask: Uint8Array): PaperEvidence {
  const factor = Math.max(1, Math.round(CELL_MM / image.mmPerCell));
  const small = reduceLab(image, factor);
  const { width, height, mmPerCell } = small;
  const within = complement(blockMiddles(mask, image, small, factor));
  const inside = farFrom(within, width, height, Math.max(1, RIM_CLEAR_MM / mmPerCell));
  const atEdge = complement(farFrom(within, width, height, EDGE_MM / mmPerCell));
  const cells: number[] = [];
  for (let i = 0; i < inside.length; i++)
    if (inside[i] === 1 && !Number.isNaN(small.L[i])) cells.push(i);
  const bands = new Float64Array(3 * cells.length);
  cells.forEach((cell, k) => {
    softBands([small.L[cell], small.a[cell], small.b[cell]]).forEach((value, c) => {
      bands[3 * k + c] = Math.log(value);
    });
  });
  const band = (c: number, of: readonly number[]): number[] => of.map((k) => bands[3 * k + c]);
  const all = cells.map((_, k) => k);
  if (all.length === 0)
    return { source: "none", lab: null, sigmaDeltaE00: null, lights: [NaN, NaN, NaN] };
  const lights: Triple = [
    quantile(band(0, all), LIGHTS),
    quantile(band(1, all), LIGHTS),
    quantile(band(2, all), LIGHTS),
  ];
  const near = (k: number, darker: number, uneven: number): boolean =>
    isNear([bands[3 * k], bands[3 * k + 1], bands[3 * k + 2]], lights, darker, uneven);

  const pileFrom = ({ darker, uneven }: (typeof FIRST)[number]): Pile => {
    let bare = all.filter((k) => near(k, darker, uneven));
    let pile: Pile = { cells: bare, middle: lights, sd: Infinity };
    for (let round = 0; round < ROUNDS && bare.length > 0; round++) {
      const columns = [0, 1, 2].map((c) => band(c, bare));
      const at = columns.map((values) => median(values));
      const sd = columns.map(
        (values, c) => 1.4826 * median(values.map((v) => Math.abs(v - at[c]))),
      );
      const reach = sd.map((value) => 4 * Math.min(MOST_SD, value + OWN_SD));
      bare = all.filter(
        (k) =>
          near(k, MOST_DARKER, MOST_UNEVEN) &&
          [0, 1, 2].every((c) => Math.abs(bands[3 * k + c] - at[c]) < reach[c]),
      );
      pile = { cells: bare, middle: [at[0], at[1], at[2]], sd: Math.max(...sd) };
    }
    return pile;
  };
  const found = (of: readonly number[], at: Triple, sigma: number): PaperEvidence => {
    const edge = of.filter((k) => atEdge[cells[k]] === 1).length;
    return {
      source: edge >= EDGE_SHARE * of.length ? "edge" : "bare",
      lab: labOfLogs(at),
      sigmaDeltaE00: sigma,
      lights,
    };
  };
  for (const first of FIRST) {
    const { cells: bare, middle, sd } = pileFrom(first);
    const believed =
      bare.length >= BELIEVED_SHARE * all.length &&
      sd <= MOST_PILE_SD &&
      middle.every((value, c) => lights[c] - value <= MOST_PILE_BELOW);
    if (believed && isPaper(labOfLogs(middle))) return found(bare, middle, BARE_SIGMA);
  }

  const placeOf = new Map(cells.map((cell, k) => [cell, k]));
  const pieceWithin = (darker: number, around?: number): number[] => {
    const light = new Uint8Array(width * height);
    for (const k of all) if (near(k, darker, darker)) light[cells[k]] = 1;
    return onePiece(light, width, height, around).map((cell) => placeOf.get(cell) ?? 0);
  };
  const patch = pieceWithin(PATCH_DARKER);
  const grown = patch.length === 0 ? [] : pieceWithin(2 * PATCH_DARKER, cells[patch[0]]);
  if (
    patch.length * mmPerCell ** 2 >= LEAST_PATCH_MM2 &&
    grown.length <= MOST_PATCH_GROWTH * patch.length
  ) {
    const at: Triple = [median(band(0, patch)), median(band(1, patch)), median(band(2, patch))];
    if (isPaper(labOfLogs(at))) return found(patch, at, PATCH_SIGMA);
  }
  const estimate = labOfLogs([
    lights[0] + LIGHTS_BELOW,
    lights[1] + LIGHTS_BELOW,
    lights[2] + LIGHTS_BELOW,
  ]);
  return isPaper(estimate)
    ? { source: "estimated", lab: estimate, sigmaDeltaE00: ESTIMATED_SIGMA, lights }
    : { source: "none", lab: null, sigmaDeltaE00: null, lights };
}

/** Whether a colour that was taken for paper can be it, by what the lights of the sheet say. */
export function agreesWithLights(
  lab: Triple,
  { source, lab: sought, lights }: PaperEvidence,
): boolean {
  if (sought === null) return false;
  const [r, g, b] = softBands(lab);
  const logs: Triple = [Math.log(r), Math.log(g), Math.log(b)];
  // Where bare paper covers enough of the sheet, toned and soiled paper is paper, too.
  return (
    source !== "estimated" &&
    isNear(logs, lights, MOST_DARKER, MOST_UNEVEN) &&
    ciede2000(lab, sought) < 8
  );
}

function isNear(logs: Triple, lights: Triple, darker: number, uneven: number): boolean {
  const d = [lights[0] - logs[0], lights[1] - logs[1], lights[2] - logs[2]];
  const mean = (d[0] + d[1] + d[2]) / 3;
  return d.every((value) => value < darker && Math.abs(value - mean) < uneven);
}

function isPaper([L, a, b]: Triple): boolean {
  return L >= LEAST_PAPER_L && Math.hypot(a, b) <= MOST_PAPER_CHROMA;
}

function labOfLogs(logs: Triple): Triple {
  return labOfSoftBands([Math.exp(logs[0]), Math.exp(logs[1]), Math.exp(logs[2])]);
}

/** Cells of the largest piece, or of that which holds a given cell. */
function onePiece(mask: Uint8Array, width: number, height: number, around?: number): number[] {
  const { piece, cells } = components(mask, width, height);
  let wanted = around === undefined ? -1 : piece[around];
  if (around === undefined)
    cells.forEach((count, k) => {
      if (wanted < 0 || count > cells[wanted]) wanted = k;
    });
  const out: number[] = [];
  if (wanted >= 0) for (let i = 0; i < piece.length; i++) if (piece[i] === wanted) out.push(i);
  return out;
}
