import type { JarReading } from "../jar/jarReading.ts";
import type { Warning } from "../errors.ts";
import type { Triple } from "../numeric/triple.ts";
import type { JarBath, JarResult, TurbidityTie } from "../results/jarResult.ts";
import type { Assessment } from "./assessBaths.ts";

const finite = (value: number): number | null => (Number.isFinite(value) ? value : null);
const band = ([r, g, b]: Triple): JarBath["absorbancePerCm"] => [finite(r), finite(g), finite(b)];

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
