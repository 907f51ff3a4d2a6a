import type { LabImage } from "./labImage.ts";

/**
 * Means over square blocks of cells, for work that needs no detail. A last block that is not full is kept.
 * @param factor Cells per block side, whole, >= 1.
 * @returns NaN where fewer than half of the block's cells hold data.
 */
export function reduceLab(image: LabImage, factor: number): LabImage {
  if (factor === 1) return image;
  const width = Math.ceil(image.width / factor);
  const height = Math.ceil(image.height / factor);
  const L = new Float32Array(width * height);
  const a = new Float32Array(width * height);
  const b = new Float32Array(width * height);
  const counts = new Uint32Array(width);
  const sums = new Float64Array(3 * width);
  for (let y = 0; y < height; y++) {
    counts.fill(0);
    sums.fill(0);
    const y1 = Math.min(image.height, (y + 1) * factor);
    for (let v = y * factor; v < y1; v++)
      for (let x = 0, i = v * image.width; x < width; x++) {
        const end = v * image.width + Math.min(image.width, (x + 1) * factor);
        for (; i < end; i++) {
          const value = image.L[i];
          if (value !== value) continue;
          counts[x]++;
          sums[3 * x] += value;
          sums[3 * x + 1] += image.a[i];
          sums[3 * x + 2] += image.b[i];
        }
      }
    for (let x = 0; x < width; x++) {
      const n = counts[x];
      const cells = (y1 - y * factor) * (Math.min(image.width, (x + 1) * factor) - x * factor);
      const o = y * width + x;
      L[o] = 2 * n >= cells ? sums[3 * x] / n : NaN;
      a[o] = 2 * n >= cells ? sums[3 * x + 1] / n : NaN;
      b[o] = 2 * n >= cells ? sums[3 * x + 2] / n : NaN;
    }
  }
  return {
    width,
    height,
    L,
    a,
    b,
    mmPerCell: image.mmPerCell * factor,
    stepX: image.stepX * factor,
    stepY: image.stepY * factor,
  };
}
