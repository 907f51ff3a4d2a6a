import type { LabImage } from "../grid/labImage.ts";

/** Half the width of a print edge under the low-pass: two standard deviations. */
const REACH_MM = 0.5;
/** A jump below this is no edge between two inks (CIELAB). */
const LEAST_JUMP = 4;
/** How far off the straight line between its two ends a mixed colour may lie, in parts of the jump. Mixing happens in
 *  linear light, so between distant colours the line is bent in Lab. */
const MOST_BEND = 0.5;

/**
 * Gives every cell on a blurred edge the colour of that side it is nearer to. Without it the mixed colours along the
 * border of two inks look like a third ink: a ring of orange around each red figure on yellow. A thin line keeps its
 * own colour, because it is darker (or lighter) than both its sides and so lies between neither.
 * @param image Low-passed.
 * @param edges As {@link edgeMask} gives them.
 * @returns A new image; cells off the edges are unchanged.
 */
export function sharpenEdges(image: LabImage, edges: Uint8Array): LabImage {
  const { width, height, L, a, b } = image;
  const reach = Math.max(1, Math.round(REACH_MM / image.mmPerCell));
  const out = { ...image, L: L.slice(), a: a.slice(), b: b.slice() };
  const jump2 = (i: number, j: number): number => {
    const d2 = (L[i] - L[j]) ** 2 + (a[i] - a[j]) ** 2 + (b[i] - b[j]) ** 2;
    return d2 >= LEAST_JUMP * LEAST_JUMP ? d2 : 0; // NaN too: no end to borrow from
  };
  for (let y = 0; y < height; y++) {
    const row = y * width;
    const up = Math.max(0, y - reach) * width;
    const down = Math.min(height - 1, y + reach) * width;
    for (let x = 0; x < width; x++) {
      const i = row + x;
      if (edges[i] === 0) continue;
      let near = row + Math.max(0, x - reach);
      let far = row + Math.min(width - 1, x + reach);
      const across = jump2(near, far);
      const along = jump2(up + x, down + x);
      if (along > across) {
        near = up + x;
        far = down + x;
      }
      const span2 = Math.max(across, along);
      if (span2 === 0) continue;
      const L0 = L[near];
      const a0 = a[near];
      const b0 = b[near];
      const dL = L[i] - L0;
      const da = a[i] - a0;
      const db = b[i] - b0;
      const t = (dL * (L[far] - L0) + da * (a[far] - a0) + db * (b[far] - b0)) / span2;
      const off2 = dL * dL + da * da + db * db - t * t * span2;
      if (t <= 0 || t >= 1 || off2 > MOST_BEND * MOST_BEND * span2) continue;
      const end = t < 0.5 ? near : far;
      out.L[i] = L[end];
      out.a[i] = a[end];
      out.b[i] = b[end];
    }
  }
  return out;
}
