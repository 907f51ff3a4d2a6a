/**
 * Normalised cross-correlation (Pearson's, means removed) of a square window with every place of a larger square.
 * All arrays row-major; side of `block` = side + 2 reach.
 */
export interface TileCorrelator {
  /** Window of the reference, side * side. Caller fills. */
  readonly window: Float64Array;
  /** 1 where the window counts, else 0. Read by `correlateMasked` only. */
  readonly counts: Uint8Array;
  /** Samples of the moving picture, (side + 2 reach)^2. Caller fills; finite everywhere. */
  readonly block: Float64Array;
  /** Receives the correlation for shifts -reach..reach in y, then x. 0 where either side is flat. */
  readonly surface: Float64Array;
  correlate(): void;
  correlateMasked(): void;
}

/** Below this the moving window counts as flat: sum of squares about the mean, relative to the plain sum. */
const FLAT = 1e-9;

export function tileCorrelator(side: number, reach: number): TileCorrelator {
  const blockSide = side + 2 * reach;
  const shifts = 2 * reach + 1;
  const window = new Float64Array(side * side);
  const counts = new Uint8Array(side * side).fill(1);
  const block = new Float64Array(blockSide * blockSide);
  const surface = new Float64Array(shifts * shifts);
  const sums = new Float64Array(shifts * shifts);
  const squares = new Float64Array(shifts * shifts);

  /** Takes the mean from the window where it counts, zero elsewhere; returns the sum of squares and the number that count. */
  const centre = (masked: boolean): { energy: number; n: number } => {
    let n = 0;
    let sum = 0;
    for (let i = 0; i < window.length; i++)
      if (!masked || counts[i] !== 0) {
        n++;
        sum += window[i];
      }
    const mean = sum / n;
    let energy = 0;
    for (let i = 0; i < window.length; i++) {
      const value = !masked || counts[i] !== 0 ? window[i] - mean : 0;
      window[i] = value;
      energy += value * value;
    }
    return { energy, n };
  };

  /** Sums over the window of its product with the block for shifts (sx..sx + 3, sy): each block value is loaded once. */
  const fourProducts = (sx: number, sy: number): void => {
    let s0 = 0;
    let s1 = 0;
    let s2 = 0;
    let s3 = 0;
    for (let y = 0, w = 0; y < side; y++) {
      let b = (y + sy) * blockSide + sx;
      let b0 = block[b];
      let b1 = block[b + 1];
      let b2 = block[b + 2];
      for (const end = w + side; w < end; w++, b++) {
        const t = window[w];
        const b3 = block[b + 3];
        s0 += t * b0;
        s1 += t * b1;
        s2 += t * b2;
        s3 += t * b3;
        b0 = b1;
        b1 = b2;
        b2 = b3;
      }
    }
    const at = sy * shifts + sx;
    surface[at] = s0;
    surface[at + 1] = s1;
    surface[at + 2] = s2;
    surface[at + 3] = s3;
  };

  const threeProducts = (sx: number, sy: number): void => {
    let s0 = 0;
    let s1 = 0;
    let s2 = 0;
    for (let y = 0, w = 0; y < side; y++) {
      let b = (y + sy) * blockSide + sx;
      let b0 = block[b];
      let b1 = block[b + 1];
      for (const end = w + side; w < end; w++, b++) {
        const t = window[w];
        const b2 = block[b + 2];
        s0 += t * b0;
        s1 += t * b1;
        s2 += t * b2;
        b0 = b1;
        b1 = b2;
      }
    }
    const at = sy * shifts + sx;
    surface[at] = s0;
    surface[at + 1] = s1;
    surface[at + 2] = s2;
  };

  // Odd numbers are sums of threes and few fours, but 5: there one shift is done twice.
  const fours = 4 * (shifts % 3) <= shifts ? shifts % 3 : 0;
  const products = (): void => {
    for (let sy = 0; sy < shifts; sy++) {
      let sx = 0;
      for (; sx < 4 * fours; sx += 4) fourProducts(sx, sy);
      for (; sx < shifts; sx += 3) threeProducts(Math.min(sx, shifts - 3), sy);
    }
  };

  /** Sum and sum of squares of the block under the window, for every shift, by running sums. */
  const movingSums = (): void => {
    sums.fill(0);
    squares.fill(0);
    for (let y = 0; y < blockSide; y++) {
      const start = y * blockSide;
      let sum = 0;
      let square = 0;
      for (let x = 0; x < blockSide; x++) {
        const entering = block[start + x];
        sum += entering;
        square += entering * entering;
        const sx = x - side + 1;
        if (sx < 0) continue;
        for (let sy = Math.max(0, y - side + 1); sy <= Math.min(2 * reach, y); sy++) {
          sums[sy * shifts + sx] += sum;
          squares[sy * shifts + sx] += square;
        }
        const leaving = block[start + sx];
        sum -= leaving;
        square -= leaving * leaving;
      }
    }
  };

  const movingSumsMasked = (): void => {
    for (let sy = 0; sy < shifts; sy++)
      for (let sx = 0; sx < shifts; sx++) {
        let sum = 0;
        let square = 0;
        for (let y = 0, w = 0; y < side; y++) {
          let b = (y + sy) * blockSide + sx;
          for (const end = w + side; w < end; w++, b++)
            if (counts[w] !== 0) {
              sum += block[b];
              square += block[b] * block[b];
            }
        }
        sums[sy * shifts + sx] = sum;
        squares[sy * shifts + sx] = square;
      }
  };

  const normalise = (energy: number, n: number): void => {
    for (let i = 0; i < surface.length; i++) {
      const moving = squares[i] - (sums[i] * sums[i]) / n;
      surface[i] =
        energy > 0 && moving > FLAT * squares[i] ? surface[i] / Math.sqrt(energy * moving) : 0;
    }
  };

  return {
    window,
    counts,
    block,
    surface,
    correlate() {
      const { energy, n } = centre(false);
      products();
      movingSums();
      normalise(energy, n);
    },
    correlateMasked() {
      const { energy, n } = centre(true);
      products();
      movingSumsMasked();
      normalise(energy, n);
    },
  };
}
