import type { EvidenceBath } from "../bath/evidence.ts";
import type { BathEvent } from "./treatment.ts";

/** What was stated of each bath, in order, whether or not a photo was taken. null: nobody said. */
export function statedConditions(baths: readonly BathEvent[]): EvidenceBath[] {
  return baths.map(({ settings }) => ({
    kind: settings.kind,
    surfactant: settings.surfactant,
    minutes: settings.minutes,
    temperatureC: settings.temperatureC,
    ph: settings.phIn,
    volumeMl: settings.volumeMl,
    settled: false,
  }));
}
