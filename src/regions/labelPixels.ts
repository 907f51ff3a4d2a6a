import type { Triple } from "../numeric/triple.ts";
import type { LabImage } from "../grid/labImage.ts";

/**
 * Labels each cell by the nearest colour.
 * @param mask Cells with 0, and cells without data, get label 0.
 * @param colours CIELAB D50, at most 254 of them.
 * @returns Label k + 1 for the nearest `colours[k]` (CIELAB distance; the first of equals).
 */
export function labelPixels(
  image: LabImage,
  mask: Uint8Array,
  colours: readonly Triple[],
): Uint8Array {
  if (colours.length > 254)
    throw new RangeError(`Expected at most 254 colours, received ${colours.length}.`);
  const { L, a, b } = image;
  const n = colours.length;
  const p = Float64Array.from(colours, (lab) => lab[0]);
  const q = Float64Array.from(colours, (lab) => lab[1]);
  const r = Float64Array.from(colours, (lab) => lab[2]);
  const labels = new Uint8Array(L.length);
  for (let i = 0; i < labels.length; i++) {
    const l = L[i];
    if (mask[i] === 0 || l !== l) continue;
    const u = a[i];
    const v = b[i];
    let least = Infinity;
    let best = -1;
    for (let k = 0; k < n; k++) {
      const dL = l - p[k];
      const da = u - q[k];
      const db = v - r[k];
      const d2 = dL * dL + da * da + db * db;
      if (d2 < least) {
        least = d2;
        best = k;
      }
    }
    labels[i] = best + 1;
  }
  return labels;
}
