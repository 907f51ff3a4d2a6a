import type { Colourant } from "../../calibration/colourants.ts";
import type { Triple } from "../numeric/triple.ts";
import { classifyInk } from "./classifyInk.ts";
import { fastBoundPerCm } from "./fastBound.ts";
import type { InkClass } from "../results/advice.ts";
import type { BathReading } from "./reading.ts";

/** Result of a blotter test. */
export type Blot = "bleeds" | "doubtful" | "fast" | "untested";

export interface PaletteInk {
  readonly id: string;
  readonly inkClass: InkClass;
  /** What it is taken to be made of. */
  readonly colourants: readonly Colourant[];
  /** What it may hold as well, near the edge of its class. */
  readonly alternatives: readonly Colourant[];
  /** Most of it that can be in a bath, peak absorbance per cm: a number where its blotter was fast, null where nothing bounds it. */
  readonly boundPerCm: number | null;
}

/** Colour of this paper's soil in this camera, from a bath of unprinted paper. */
export interface OwnSoil {
  /** That bath. */
  readonly strip: BathReading;
  /** As the mean camera would see it. */
  readonly slopePerNm: number;
  readonly slopeSdPerNm: number;
  /** Measured over modelled response of the bands r, g, b. */
  readonly gains: Triple;
}

/** What the colour of a bath may be made of. Soil is always among it. */
export interface Palette {
  readonly inks: readonly PaletteInk[];
  /** null: any brown of the published range. */
  readonly ownSoil: OwnSoil | null;
  /** Whether brown particles are admitted beside dissolved soil. */
  readonly silt: boolean;
}

/** An ink of the cover as far as the colour of a bath is concerned. */
export interface PrintedColour {
  readonly id: string;
  /** CIELAB D50 before washing. */
  readonly lab: Triple;
  readonly blot: Blot;
  /** Solid-equivalent printed area; left out: not known. */
  readonly areaCm2?: number | null;
}

/**
 * Candidates for the colour of a bath, from the colours of the inks on the cover and their blotter tests. A fast ink is bounded by
 * its area and the bath's volume; a doubtful, bleeding or untested one is not, nor is any where area or volume is not known.
 * @param paperLab CIELAB D50 of the bare paper.
 * @param volumeMl Volume of that bath; null: not known.
 */
export function choosePalette(
  inks: readonly PrintedColour[],
  paperLab: Triple,
  ownSoil: OwnSoil | null,
  volumeMl: number | null,
): Palette {
  return {
    inks: inks.map(({ id, lab, blot, areaCm2 = null }) => {
      const { inkClass, colourants, alternatives } = classifyInk(lab, paperLab);
      const boundPerCm = blot === "fast" ? fastBoundPerCm(areaCm2, volumeMl) : null;
      return { id, inkClass, colourants, alternatives, boundPerCm };
    }),
    ownSoil,
    silt: false,
  };
}
