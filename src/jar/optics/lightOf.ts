import { decodeSrgb } from "../../colour/srgb.ts";
import type { Curve } from "./tone.ts";

/** Linear light of a code 0..1. */
export function lightOf(code: number, { amplitude, gamma, offset }: Curve): number {
  const light = decodeSrgb(undoS(code, amplitude)) - offset;
  return gamma === 1 ? light : light > 0 ? light ** gamma : 0;
}

/** u with u - amplitude sin(2 pi u) = code, by Newton from the code itself. */
function undoS(code: number, amplitude: number): number {
  if (amplitude === 0) return code;
  let u = code;
  for (let i = 0; i < 8; i++)
    u -=
      (u - amplitude * Math.sin(2 * Math.PI * u) - code) /
      (1 - 2 * Math.PI * amplitude * Math.cos(2 * Math.PI * u));
  return Math.min(1, Math.max(0, u));
}
