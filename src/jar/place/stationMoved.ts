import { LastrinseError } from "../../errors.ts";

export const MOVED_REMEDY =
  "Jar, backing or camera moved: put them back and photograph again, or photograph a new blank in this position.";

/** The refusal of stripes that lie elsewhere than `against` has them. */
export function stationMoved(
  file: string,
  shift: number,
  tolerance: number,
  against: string,
): LastrinseError {
  return new LastrinseError(
    "station-moved",
    `Expected the stripes in ${file} where ${against} has them, received stripes shifted by ${shift.toFixed(1)} pixels (limit ${tolerance.toFixed(1)}).`,
    { remedy: MOVED_REMEDY, input: file },
  );
}
