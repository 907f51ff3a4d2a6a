import type { Warning } from "../errors.ts";
import type { Triple } from "../numeric/triple.ts";
import type { Tone } from "./optics/tone.ts";

/** What one photo of spent bath says against its blank. All decadic, per cm; bands r g b of the soft mix unless named display. */
export interface JarReading {
  readonly file: string;
  /** Absorption without the particles' part. NaN where no contrast is left. */
  readonly absorbancePerCm: Triple;
  /** Standard uncertainty. */
  readonly absorbanceSigma: Triple;
  /** The same in linear sRGB: for showing only, never for computing. NaN where a channel is out of gamut. */
  readonly displayAbsorbancePerCm: Triple;
  readonly attenuationWidePerCm: Triple;
  /** NaN where the liquid shows no narrow stripes. */
  readonly attenuationNarrowPerCm: Triple;
  /** beta of the green band. */
  readonly turbidityIndexPerCm: number;
  /** Standard uncertainty as a count of particles of one kind. */
  readonly turbidityIndexSigma: number;
  /** true: the index is past the range in which it counts particles; say "more than". */
  readonly turbidityBeyondRange: boolean;
  /** Set by the user's own dilution series, else null. */
  readonly turbidityFnu: number | null;
  readonly turbidityFnuSigma: number | null;
  /** Length of the light's way: passes x path through the liquid. */
  readonly pathCm: number;
  /** Of the spent photo. */
  readonly tone: Tone;
  readonly warnings: readonly Warning[];
}
