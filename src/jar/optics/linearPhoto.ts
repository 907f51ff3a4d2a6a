import type { Raster } from "../../raster/raster.ts";
import type { GreySample } from "./greysOfCard.ts";
import type { LightTable } from "./lightBox.ts";
import type { Triple } from "../../numeric/triple.ts";
import { fitTone } from "./fitTone.ts";
import { flareOf } from "./flareOf.ts";
import { lightTable } from "./lightTable.ts";
import type { Tone } from "./tone.ts";

/** A photo of the jar as it was read. */
export interface JarPhoto {
  readonly file: string;
  readonly raster: Raster;
  /** Greys of the card in it; empty where there is no card, or an unmeasured one. */
  readonly greys: readonly GreySample[];
}

/** A photo ready for reading. */
export interface LitPhoto {
  readonly file: string;
  readonly raster: Raster;
  readonly table: LightTable;
}

/** A photo with its tone curve found, ready for reading. */
export interface LinearPhoto extends LitPhoto {
  readonly tone: Tone;
  /** Light that lens and room add everywhere, R G B. */
  readonly flare: Triple;
}

/** Finds the tone curve of a photo from the greys in it. */
export function linearPhoto({ file, raster, greys }: JarPhoto): LinearPhoto {
  const tone = fitTone(greys);
  return {
    file,
    raster,
    table: lightTable(tone, raster.bitDepth),
    tone,
    flare: flareOf(greys, tone),
  };
}
