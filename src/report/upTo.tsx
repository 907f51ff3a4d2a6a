import type { VNode } from "preact";
import { figure } from "./figures.ts";

/** A predicted range, its upper bound first: a middle near 0 would pass for the answer where the range reaches far. */
export function UpTo({
  low,
  high,
  digits = 2,
}: {
  readonly low: number;
  readonly high: number;
  readonly digits?: number;
}): VNode {
  return (
    <>
      up to {figure(high, digits)} <span class="range">(from {figure(low, digits)})</span>
    </>
  );
}
