import type { PlateSolid } from "../../calibration/plateSolids.ts";
import type { Triple } from "../numeric/triple.ts";
import type { MassRange } from "./colourantMass.ts";
import type { LossInterval } from "./mixtureInterval.ts";
import type { PlateVerdict } from "./plateVerdict.ts";
import type { PlateWarning } from "./plateWarnings.ts";
import type { TileMap } from "./tileMap.ts";

/** One ink of the press as it is given. */
export interface PlateInk {
  readonly id: string;
  readonly name: string;
  readonly black: boolean;
  /** The usual solid; null for an ink that must be picked. */
  readonly usual: PlateSolid | null;
  /** CIELAB D50 of a place of the before scan that is this ink's solid; null where none was picked. */
  readonly picked: Triple | null;
}

/** One printing ink: how much of its colourant it lost. Shares 0..1. */
export interface Plate extends LossInterval {
  readonly id: string;
  readonly name: string;
  /** CIELAB D50 of the solid on this paper. */
  readonly solidLab: Triple;
  readonly source: "picked" | "usual";
  /** Mean coverage over the sheet, by least and most of the plate. */
  readonly meanCoverage: readonly [low: number, high: number];
  readonly verdict: PlateVerdict;
  /** Whether the plate has places of its own, without which nothing is claimed. */
  readonly ownPlaces: boolean;
  /** Mean dE00 that this loss alone costs. */
  readonly deltaE00: readonly [low: number, high: number];
  readonly worst: WorstTile | null;
  /** Colourant: decadic density x mm2. */
  readonly mass: { readonly printed: MassRange; readonly lost: MassRange; readonly lostBounds: MassRange }; // prettier-ignore
  /** The ink answers otherwise than the law says: changed rather than lost. */
  readonly changed: boolean;
}

/** The tile that lost most. The box is in cells (mm) of the grid. */
export interface WorstTile extends LossInterval {
  readonly column: number;
  readonly row: number;
  readonly boxMm: { readonly x: number; readonly y: number; readonly width: number; readonly height: number }; // prettier-ignore
}

/** How the plates were separated; null = not known, as where the separation was refused. */
export interface PlateModel {
  readonly bands: "soft";
  readonly paper: "bare" | "from-lights" | null;
  /** Change of ln of the paper's bands. */
  readonly paperChange: Triple | null;
  readonly cells: number;
  readonly tiles: number;
  /** Mean difference of the coverage of black between most and least black; null without black beside colours. */
  readonly blackAmbiguity: number | null;
  /** Root mean square of what no mixture prints, ln T. */
  readonly misfit: number | null;
  /** Lowest and highest h of weight 0.1 or more; mean and likeliest h. */
  readonly film: readonly [low: number, high: number] | null;
  readonly meanFilm: number | null;
  readonly likeliestFilm: number | null;
  readonly darkness: number | null;
  readonly darknessTold: boolean;
  /** Light added everywhere, as gloss that went adds it; share of white. */
  readonly addedLight: number | null;
  readonly refused: "too-little-print" | null;
}

/** What came of separating the plates of one pair of scans. */
export interface PlateSeparation {
  /** null where the separation was refused. */
  readonly plates: readonly Plate[] | null;
  readonly model: PlateModel;
  readonly warnings: readonly PlateWarning[];
  /** In the order of `plates`; null where no plate lost, none is uncertain, or no map was asked for. */
  readonly map: TileMap | null;
}
