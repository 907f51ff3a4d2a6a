import { monotoneSlopes } from "../numeric/monotoneCubic.ts";
import type { ToneCurve } from "./correction.ts";
import type { FitTargets } from "./fitTargets.ts";

/** Greys nearer than this in linear light are one knot: between them only noise decides the slope. */
const SMALLEST_KNOT_DISTANCE = 1e-4;

/**
 * Tone curve of each channel: a monotone cubic through the greys, from their decoded value to their reference luminance.
 * Greys that stand in the wrong order are averaged until none do.
 * @param weights How often each patch counts; 0 leaves it out.
 * @returns Identity curves where fewer than two different greys are left.
 */
export function fitGreyCurves(
  targets: FitTargets,
  weights: ArrayLike<number>,
): readonly [ToneCurve, ToneCurve, ToneCurve] {
  const curve = (channel: number): ToneCurve => {
    const knots: { x: number; y: number; weight: number }[] = [];
    for (let i = 0; i < targets.count; i++)
      if (targets.neutral[i] && weights[i] > 0)
        knots.push({
          x: targets.linear[3 * i + channel],
          y: targets.xyz[3 * i + 1],
          weight: weights[i],
        });
    knots.sort((a, b) => a.y - b.y);
    const merged: typeof knots = [];
    for (let knot of knots) {
      for (
        let last = merged.at(-1);
        last !== undefined && knot.x < last.x + SMALLEST_KNOT_DISTANCE;
        last = merged.at(-1)
      ) {
        const weight = last.weight + knot.weight;
        knot = {
          x: (last.x * last.weight + knot.x * knot.weight) / weight,
          y: (last.y * last.weight + knot.y * knot.weight) / weight,
          weight,
        };
        merged.pop();
      }
      merged.push(knot);
    }
    if (merged.length < 2) return { kind: "identity" };
    const x = merged.map((knot) => knot.x);
    const y = merged.map((knot) => knot.y);
    return { kind: "monotone", x, y, slope: monotoneSlopes(x, y) };
  };
  return [curve(0), curve(1), curve(2)];
}
