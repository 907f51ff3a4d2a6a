import type { ToneCurve } from "./correction.ts";
import { toneCurveAt } from "./toneCurveAt.ts";

/** Halvings of the interval 0..1 in a monotone cubic: to the last digits of a double. */
const BISECTIONS = 50;

/**
 * The decoded value that a tone curve maps to `tone`.
 * @returns The offset of a power curve where `tone` is 0 or less.
 */
export function invertToneCurve(curve: ToneCurve, tone: number): number {
  switch (curve.kind) {
    case "identity":
      return tone;
    case "power":
      return curve.offset + (tone > 0 ? tone ** (1 / curve.exponent) : 0);
    case "monotone": {
      const { x, y, slope } = curve;
      const last = x.length - 1;
      if (tone <= y[0]) return x[0] + (tone - y[0]) / slope[0];
      if (tone >= y[last]) return x[last] + (tone - y[last]) / slope[last];
      let low = x[0];
      let high = x[last];
      for (let i = 0; i < BISECTIONS; i++) {
        const middle = (low + high) / 2;
        if (toneCurveAt(curve, middle) < tone) low = middle;
        else high = middle;
      }
      return (low + high) / 2;
    }
  }
}
