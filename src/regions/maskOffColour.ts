import type { Triple } from "../numeric/triple.ts";
import type { LabImage } from "../grid/labImage.ts";

/**
 * Masks cells whose colour is too far from that of their label: gradients and colours too rare for a name of their own get the
 * label of the nearest ink all the same, but must not enter its mean.
 * @param mask Changed in place: 1 where a cell is off its colour.
 * @param labels Label k + 1 for the k-th colour, 0 not measured.
 * @param colours In the image's own space.
 * @param limit Largest distance from the k-th colour.
 */
export function maskOffColour(
  mask: Uint8Array,
  image: LabImage,
  labels: Uint8Array,
  colours: readonly Triple[],
  limit: (k: number) => number,
): void {
  const { L, a, b } = image;
  const p = Float64Array.from(colours, (lab) => lab[0]);
  const q = Float64Array.from(colours, (lab) => lab[1]);
  const r = Float64Array.from(colours, (lab) => lab[2]);
  const limit2 = Float64Array.from(colours, (_, k) => limit(k) ** 2);
  for (let i = 0; i < labels.length; i++) {
    const k = labels[i] - 1;
    if (k < 0) continue;
    const d2 = (L[i] - p[k]) ** 2 + (a[i] - q[k]) ** 2 + (b[i] - r[k]) ** 2;
    if (d2 > limit2[k]) mask[i] = 1;
  }
}
