import { lightOf, type Tone } from "./fitTone.ts";
import type { LightTable } from "./lightBox.ts";

/** Linear light of every code: 256 or 65536 values. */
export function lightTable(tone: Tone, bitDepth: 8 | 16): LightTable {
  const full = 2 ** bitDepth - 1;
  return Float32Array.from({ length: full + 1 }, (_, code) => lightOf(code / full, tone));
}
