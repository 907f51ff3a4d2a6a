import type { LabImage } from "../grid/labImage.ts";

/**
 * Standard deviation of the low-pass that regions are found in: two 3 x 3 binomial blurs of 1/100 inch cells have
 * 0.254 mm. It takes the ripple of an 85 line screen below 0.1 %. Source: the recipe measured for this product.
 */
const SIGMA_MM = 0.254;

/** Largest variance of a kernel w, 1 - 2w, w in cells squared: w = 1/3. Larger weights would sharpen the finest ripple. */
const MOST_VARIANCE = 2 / 3;

function smoothRows(
  from: Float32Array,
  to: Float32Array,
  width: number,
  height: number,
  w: number,
): void {
  const middle = 1 - 2 * w;
  for (let y = 0; y < height; y++) {
    const start = y * width;
    const end = start + width;
    let left = NaN;
    let centre = from[start];
    for (let i = start; i < end; i++) {
      const right = i + 1 < end ? from[i + 1] : NaN;
      // A neighbour without data counts as the cell itself; a cell without data stays so.
      to[i] =
        w * (left === left ? left : centre) +
        middle * centre +
        w * (right === right ? right : centre);
      left = centre;
      centre = right;
    }
  }
}

function smoothColumns(
  from: Float32Array,
  to: Float32Array,
  width: number,
  height: number,
  w: number,
): void {
  const middle = 1 - 2 * w;
  for (let y = 0; y < height; y++) {
    const start = y * width;
    const up = y > 0 ? start - width : start;
    const down = y + 1 < height ? start + width : start;
    for (let x = 0; x < width; x++) {
      const centre = from[start + x];
      const above = from[up + x];
      const below = from[down + x];
      to[start + x] =
        w * (above === above ? above : centre) +
        middle * centre +
        w * (below === below ? below : centre);
    }
  }
}

/**
 * The picture in which regions are found: low-passed to about 0.6 mm full width at half maximum.
 * The blur is made in Lab, not in linear light: the cells are linear-light means already, and what is left of a screen's
 * ripple in them (a tenth of the mean at 100 cells per inch) shifts their Lab mean by about 0.1 L*. It decides
 * membership only; figures are taken from the linear planes.
 * @returns A new image of the same shape. NaN where the cell itself is NaN.
 */
export function smoothLab(image: LabImage): LabImage {
  const { width, height } = image;
  const variance = (SIGMA_MM / image.mmPerCell) ** 2;
  const passes = Math.ceil(variance / MOST_VARIANCE);
  const w = variance / passes / 2;
  const scratch = new Float32Array(width * height);
  const smooth = (plane: Float32Array): Float32Array => {
    const out = new Float32Array(width * height);
    for (let pass = 0; pass < passes; pass++) {
      smoothRows(pass === 0 ? plane : out, scratch, width, height, w);
      smoothColumns(scratch, out, width, height, w);
    }
    return out;
  };
  return { ...image, L: smooth(image.L), a: smooth(image.a), b: smooth(image.b) };
}
