import { regularisedGamma } from "./regularisedGamma.ts";

/** Distribution function of the standard normal: P(Z <= z). */
export function normalCdf(z: number): number {
  const half = regularisedGamma(0.5, (z * z) / 2) / 2;
  return z < 0 ? 0.5 - half : 0.5 + half;
}
