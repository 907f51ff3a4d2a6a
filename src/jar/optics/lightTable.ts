import type { LightTable } from "./lightBox.ts";
import { lightOf } from "./lightOf.ts";
import type { Tone } from "./tone.ts";

/** Steps of the curve itself; codes of 16 bit lie on straight lines between them, which errs by less than 1e-6. */
const STEPS = 4095;

/** Linear light of every code: 256 or 65536 values. */
export function lightTable(tone: Tone, bitDepth: 8 | 16): LightTable {
  const full = 2 ** bitDepth - 1;
  if (bitDepth === 8)
    return Float32Array.from({ length: full + 1 }, (_, code) => lightOf(code / full, tone));
  const steps = Float64Array.from({ length: STEPS + 2 }, (_, i) => lightOf(i / STEPS, tone));
  return Float32Array.from({ length: full + 1 }, (_, code) => {
    const at = (code / full) * STEPS;
    const i = Math.floor(at);
    return steps[i] + (at - i) * (steps[i + 1] - steps[i]);
  });
}
