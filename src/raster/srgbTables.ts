import type { ChannelTables } from "./channelTables.ts";
import { decodeSrgb } from "../colour/srgb.ts";

/**
 * Linear light 0..1 of each code value by the inverse sRGB curve, the same table for R, G and B: codes read as sRGB-like.
 * @returns Tables of 256 or 65536 values.
 */
export function srgbTables(bitDepth: 8 | 16): ChannelTables {
  const full = 2 ** bitDepth - 1;
  const table = Float64Array.from({ length: full + 1 }, (_, code) => decodeSrgb(code / full));
  return [table, table, table];
}
