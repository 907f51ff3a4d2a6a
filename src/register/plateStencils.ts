/** For each node the others that bend the plate with it. */
export interface PlateStencils {
  /** Where each node's entries begin; one more at the end. */
  readonly starts: Int32Array;
  readonly nodes: Int32Array;
  /** Weights of a prediction; those of a node sum to 1, or there are none. */
  readonly weights: Float64Array;
}

/**
 * The value of a node at which a thin plate through the others bends least: discrete bending energy, the sum of squares of
 * the second differences along x, along y, and twice the mixed one, over all that lie within the lattice. Inside that is the
 * thirteen-point stencil (8 N - 2 D - S)/20; at the border the same energy makes the plate run on straight.
 * A lattice too narrow to bend (fewer than three nodes both ways) predicts the mean of the neighbours.
 */
export function plateStencils(width: number, height: number): PlateStencils {
  const rowsOfK = Array.from({ length: width * height }, () => new Map<number, number>());
  bendings(width, height, (nodes, factors, weight) => {
    nodes.forEach((i, k) => {
      nodes.forEach((j, l) => {
        rowsOfK[i].set(j, (rowsOfK[i].get(j) ?? 0) + weight * factors[k] * factors[l]);
      });
    });
  });
  const starts = new Int32Array(width * height + 1);
  const nodes: number[] = [];
  const weights: number[] = [];
  rowsOfK.forEach((row, i) => {
    const own = row.get(i) ?? 0;
    for (const [j, k] of row)
      if (j !== i && k !== 0) {
        nodes.push(j);
        weights.push(-k / own);
      }
    starts[i + 1] = nodes.length;
  });
  return { starts, nodes: Int32Array.from(nodes), weights: Float64Array.from(weights) };
}

/** Calls for each second difference of the bending energy: its nodes, their factors, and the weight of its square. */
export function bendings(
  width: number,
  height: number,
  each: (nodes: readonly number[], factors: readonly number[], weight: number) => void,
): void {
  for (let r = 0; r < height; r++)
    for (let c = 0; c < width; c++) {
      const i = r * width + c;
      if (c + 2 < width) each([i, i + 1, i + 2], [1, -2, 1], 1);
      if (r + 2 < height) each([i, i + width, i + 2 * width], [1, -2, 1], 1);
      if (c + 1 < width && r + 1 < height)
        each([i, i + 1, i + width, i + width + 1], [1, -1, -1, 1], 2);
    }
}
