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
  for (let y = 0; y < height; y++) {
    const y1 = Math.min(image.height, (y + 1) * factor);
    for (let x = 0; x < width; x++) {
      const x1 = Math.min(image.width, (x + 1) * factor);
      let n = 0;
      let sumL = 0;
      let sumA = 0;
      let sumB = 0;
      for (let v = y * factor; v < y1; v++)
        for (let i = v * image.width + x * factor; i < v * image.width + x1; i++) {
          if (Number.isNaN(image.L[i])) continue;
          n++;
          sumL += image.L[i];
          sumA += image.a[i];
          sumB += image.b[i];
        }
      const enough = 2 * n >= (y1 - y * factor) * (x1 - x * factor);
      const o = y * width + x;
      L[o] = enough ? sumL / n : NaN;
      a[o] = enough ? sumA / n : NaN;
      b[o] = enough ? sumB / n : NaN;
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
