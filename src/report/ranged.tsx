import type { VNode } from "preact";
import { between, figure } from "./figures.ts";

/** A figure with its range, which is never broken over two lines. */
export function Ranged({
  value,
  low,
  high,
  digits = 2,
}: {
  readonly value: number | null;
  readonly low: number | null;
  readonly high: number | null;
  readonly digits?: number;
}): VNode {
  const range = value === null ? "" : between(low, high, digits);
  return (
    <>
      {figure(value, digits)}
      {range === "" ? null : (
        <>
          {" "}
          <span class="range">({range})</span>
        </>
      )}
    </>
  );
}
