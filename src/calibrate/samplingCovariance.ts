import type { Triple } from "../numeric/triple.ts";
import { covariance3 } from "../numeric/covariance3.ts";
import { mapMatrix3, type Matrix3 } from "../numeric/matrix3.ts";

/**
 * Covariance of the measured difference of an area that comes from having seen only so many pieces of it.
 *
 * `apart`: var(blocks) / m in each frame, added: right where the two frames show different pieces of a texture (a halftone that is not
 * registered, JPEG noise). `registered`: var(after - before) / m: right where block i is the same piece of paper in both, since a drawing
 * that is there before and after is no noise.
 * @param before CIELAB of the blocks (8 x 8 pixels) of the area.
 * @param after The same in the other frame; same order and number when registered.
 * @returns Zeros for fewer than two blocks.
 * @throws {RangeError} Registered blocks that differ in number.
 */
export function samplingCovariance(
  before: readonly Triple[],
  after: readonly Triple[],
  pairing: "apart" | "registered",
): Matrix3 {
  const share = (values: readonly Triple[]): Matrix3 =>
    mapMatrix3(covariance3(values), (value) => value / Math.max(1, values.length));
  if (pairing === "apart") {
    const second = share(after);
    return mapMatrix3(share(before), (value, i) => value + second[i]);
  }
  if (before.length !== after.length)
    throw new RangeError(
      `Expected as many blocks after as before, received ${before.length} and ${after.length}.`,
    );
  return share(
    before.map((lab, i): Triple => [
      after[i][0] - lab[0],
      after[i][1] - lab[1],
      after[i][2] - lab[2],
    ]),
  );
}
