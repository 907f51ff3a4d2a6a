import type { Triple } from "../../numeric/triple.ts";
import { fitTone } from "./fitTone.ts";
import { flareOf } from "./flareOf.ts";
import { lightTable } from "./lightTable.ts";
import type { JarPhoto } from "../measureJar.ts";
import type { LitPhoto } from "../stripes/stripeReading.ts";
import type { Tone } from "./tone.ts";

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
