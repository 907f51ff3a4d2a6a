import type { Triple } from "../../numeric/triple.ts";

/** A value for each of three channels. */
export function perChannel(value: (channel: 0 | 1 | 2) => number): Triple {
  return [value(0), value(1), value(2)];
}
