import type { Box } from "../grid/box.ts";
import type { Triple } from "../numeric/triple.ts";
import type { SoughtPaper } from "./seekPaper.ts";
import type { Sheet } from "./findSheet.ts";

/** Label of bare paper in a label picture; 0 is "not measured". */
export const PAPER_LABEL = 255;

/** Values of {@link RegionMap.mixed}. */
export const BLURRED = 1;
export const OFF_COLOUR = 2;
export const STRANGER = 3;

/**
 * `black`: dark and colourless. `overprint`: made of two other inks. `ink`: everything else, also halftone tints of
 * one ink, grey among them.
 */
export type InkKind = "ink" | "overprint" | "black";

/** One contiguous area of an ink, at least 10 mm2. */
export interface Region {
  readonly id: string;
  /** Its number in {@link RegionMap.components}. */
  readonly component: number;
  readonly box: Box;
  readonly cells: number;
  /** Cells that may enter a mean; 0 for line work too thin to be measured. */
  readonly coreCells: number;
  readonly areaCm2: number;
}

export interface Ink {
  /** 1..254, by area, largest first. */
  readonly label: number;
  readonly id: string;
  readonly kind: InkKind;
  /** CIELAB D50 around which its cells gather. */
  readonly modeLab: Triple;
  readonly cells: number;
  readonly coreCells: number;
  readonly areaCm2: number;
  /** Largest first, at most 60. */
  readonly regions: readonly Region[];
}

export interface Paper {
  /** CIELAB D50 of its commonest colour. */
  readonly modeLab: Triple;
  /** Further colours that count as paper: browned, soiled, cleaner. */
  readonly otherLabs: readonly Triple[];
  readonly cells: number;
  readonly coreCells: number;
  readonly areaCm2: number;
}

/** The ink regions of a scan. All planes have the shape of the Lab image they were found in. */
export interface RegionMap {
  readonly width: number;
  readonly height: number;
  /** 0 not measured, 1..254 ink, 255 paper. */
  readonly labels: Uint8Array;
  /** The same labels on cells that may enter a mean: 1 mm inside their region, on no edge; 0 elsewhere. */
  readonly cores: Uint8Array;
  /**
   * Not 0 where a cell may hold colour of something else than its label's: {@link BLURRED} on an edge, {@link OFF_COLOUR} far from the label's own
   * colour, {@link STRANGER} in a piece of another colour that was folded in.
   */
  readonly mixed: Uint8Array;
  /** Number of the listed region each cell belongs to, from 1; 0 on paper and in pieces that are not listed. */
  readonly components: Uint16Array;
  /** By label. */
  readonly inks: readonly Ink[];
  /** null when no bare paper was found. */
  readonly paper: Paper | null;
  /** Where the paper's colour comes from and how far it may be off; a colour may be known or estimated where no bare paper is seen. */
  readonly sought: SoughtPaper;
  readonly sheet: Sheet;
}
