import type { Triple } from "../numeric/triple.ts";
import type { Matrix3 } from "../numeric/matrix3.ts";

/** A colour before and after, with the covariance of its measured Lab difference. */
export interface MeasuredDifference {
  readonly labBefore: Triple;
  readonly labAfter: Triple;
  readonly covariance: Matrix3;
}
