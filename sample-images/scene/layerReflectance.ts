/**
 * Reflectance of a scattering and absorbing layer over a background (Kubelka and Munk, hyperbolic form).
 * @param K Absorption times thickness, >= 0.
 * @param S Scattering times thickness, > 0.
 * @param background Reflectance of what lies below, 0..1.
 * @see Kubelka, J. Opt. Soc. Am. 38, 448-457 (1948).
 */
export function layerReflectance(K: number, S: number, background: number): number {
  const a = 1 + K / S;
  const b = Math.sqrt(a * a - 1);
  const bCoth = b === 0 ? 1 / S : b / Math.tanh(b * S);
  return (1 - background * (a - bCoth)) / (a - background + bCoth);
}
