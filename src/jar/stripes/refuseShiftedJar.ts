import type { LitPhoto } from "../optics/linearPhoto.ts";
import { LastrinseError } from "../../errors.ts";
import { sidewaysShift } from "./sidewaysShift.ts";
import type { Station } from "../place/station.ts";

/** A jar this far from its place is seen at another angle, and the boxes come near its walls. */
const LARGEST_SIDEWAYS_MM = 2;

/** @throws {LastrinseError} `station-moved` where the jar itself stands further left or right than in the blank. */
export function refuseShiftedJar(sample: LitPhoto, blank: LitPhoto, station: Station): void {
  const shift = sidewaysShift(sample, blank, station);
  if (!(Math.abs(shift) > LARGEST_SIDEWAYS_MM)) return;
  throw new LastrinseError(
    "station-moved",
    `Expected the jar in ${sample.file} where it stands in the blank, received it ${Math.abs(shift).toFixed(1)} mm further ${shift > 0 ? "right" : "left"} (limit ${LARGEST_SIDEWAYS_MM} mm).`,
    {
      remedy:
        "Put the jar back on its mark and photograph again, or photograph a new blank in this position.",
      input: sample.file,
    },
  );
}
