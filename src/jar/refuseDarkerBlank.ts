import type { JarReading } from "./jarReading.ts";
import { LastrinseError } from "../errors.ts";

/** A bath can't be clearer than fresh: beyond this optical depth, decadic, it is no slip of the photo's own light. */
export const CLEARER_DEPTH = -0.03;

/** Standard uncertainties by which a band must lie below nothing. */
const SURE = 3;

const BANDS = ["red", "green", "blue"] as const;

/**
 * Refuses a blank that holds more colour, or haze that takes as much light, than the spent bath: some band lies below nothing by more than its uncertainty, and by more
 * than any other band lies above it (a strong dye may push another band a little below).
 * @throws {LastrinseError} `blank-darker`.
 */
export function refuseDarkerBlank(
  { file, absorbancePerCm, absorbanceSigma, pathCm }: Omit<JarReading, "warnings">,
  blank: string,
): void {
  const measured = absorbancePerCm.filter((A) => !Number.isNaN(A));
  const deepest = Math.min(...measured);
  const band = absorbancePerCm.indexOf(deepest);
  if (
    !(deepest * pathCm < CLEARER_DEPTH) ||
    deepest > -SURE * absorbanceSigma[band] ||
    -deepest <= Math.max(...measured)
  )
    return;
  throw new LastrinseError(
    "blank-darker",
    `Expected less colour and haze in the blank ${blank} than in the spent bath ${file}, received more: the ${BANDS[band]} band reads ${deepest.toFixed(3)} +- ${absorbanceSigma[band].toFixed(3)} per cm, below nothing.`,
    {
      remedy:
        "Look whether the two photos are mixed up: --spent (or the first names) is used bath, --blank fresh bath of the same age. If they are not, photograph fresh bath again as the blank.",
      input: blank,
    },
  );
}
