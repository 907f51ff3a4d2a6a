import type { JarReading } from "../jar/jarReading.ts";
import type { TurbidityTie } from "../jar/turbidity/turbidityTie.ts";
import type { InkShare } from "../bath/inkShareOf.ts";
import type { Warning } from "../errors.ts";
import type { Advice } from "./advice.ts";
import type { Assessment } from "./assessBaths.ts";

type Band = readonly (number | null)[];

/** One bath of the `jar` result. All per cm, decadic; bands r, g, b of the band mix. null = not measurable. */
export interface JarBath {
  readonly file: string;
  readonly absorbancePerCm: Band;
  readonly absorbanceSigma: Band;
  readonly displayAbsorbancePerCm: Band;
  readonly attenuationWidePerCm: Band;
  readonly attenuationNarrowPerCm: Band;
  readonly turbidityIndexPerCm: number | null;
  readonly turbidityBeyondRange: boolean;
  readonly turbidityFnu: number | null;
  readonly inkShare: InkShare | null;
  readonly components: Readonly<Record<string, readonly [number, number, number]>> | null;
  readonly warnings: readonly Warning[];
}

/** The object printed by `jar --json`. */
export interface JarResult {
  readonly schema: "lastrinse.jar";
  readonly version: 1;
  readonly baths: readonly JarBath[];
  readonly turbidityTie: TurbidityTie | null;
  readonly fade: Assessment["fade"];
  readonly nextBath: Assessment["nextBath"];
  readonly advice: Advice;
  readonly warnings: readonly Warning[];
}

const finite = (value: number): number | null => (Number.isFinite(value) ? value : null);
const band = (values: readonly number[]): Band => values.map(finite);

/** Puts the optics and their meaning together. */
export function jarResult(
  read: {
    readonly readings: readonly JarReading[];
    readonly tie: TurbidityTie | null;
    readonly warnings: readonly Warning[];
  },
  assessment: Assessment,
): JarResult {
  return {
    schema: "lastrinse.jar",
    version: 1,
    baths: read.readings.map((reading, i) => ({
      file: reading.file,
      absorbancePerCm: band(reading.absorbancePerCm),
      absorbanceSigma: band(reading.absorbanceSigma),
      displayAbsorbancePerCm: band(reading.displayAbsorbancePerCm),
      attenuationWidePerCm: band(reading.attenuationWidePerCm),
      attenuationNarrowPerCm: band(reading.attenuationNarrowPerCm),
      turbidityIndexPerCm: finite(reading.turbidityIndexPerCm),
      turbidityBeyondRange: reading.turbidityBeyondRange,
      turbidityFnu: reading.turbidityFnu,
      inkShare: assessment.baths[i].inkShare,
      components: assessment.baths[i].components,
      warnings: assessment.baths[i].warnings,
    })),
    turbidityTie: read.tie,
    fade: assessment.fade,
    nextBath: assessment.nextBath,
    advice: assessment.advice,
    warnings: [...read.warnings, ...assessment.warnings],
  };
}
