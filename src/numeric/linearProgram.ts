/** One row of a linear program: sum of coefficients times x, at most or exactly the bound. */
export interface Constraint {
  readonly coefficients: ArrayLike<number>;
  readonly kind: "at-most" | "exactly";
  readonly bound: number;
}

export type LinearProgramResult =
  | { readonly status: "optimal"; readonly value: number; readonly x: Float64Array }
  | { readonly status: "infeasible" }
  | { readonly status: "unbounded" };

const TOLERANCE = 1e-9;
/** Steepest choice first, Bland's rule after this many pivots: it can't cycle. */
const PIVOTS_BEFORE_BLAND = 60;
const MOST_PIVOTS = 2000;

/**
 * Maximises c x with x >= 0 under linear constraints: dense simplex in two phases, for a few dozen variables.
 * Numbers should be near 1: the tolerance is 1e-9 absolute.
 * @param objective c.
 * @param constraints Each with as many coefficients as `objective`.
 * @throws {RangeError} A row of another length.
 * @see Chvatal, Linear Programming (1983), chapters 3 and 8; Bland, Math. Oper. Res. 2, 103 (1977).
 */
export function maximise(
  objective: ArrayLike<number>,
  constraints: readonly Constraint[],
): LinearProgramResult {
  const n = objective.length;
  const m = constraints.length;
  const slackOf = constraints.map(({ kind }) => (kind === "at-most" ? 1 : 0));
  const slacks = slackOf.reduce<number>((a, b) => a + b, 0);
  // Columns: variables, slacks, one artificial a row where needed, right side.
  const width = n + slacks + m + 1;
  const right = width - 1;
  const table = new Float64Array(m * width);
  const basis = new Int32Array(m);
  let slack = n;
  constraints.forEach(({ coefficients, kind, bound }, row) => {
    if (coefficients.length !== n)
      throw new RangeError(`Expected ${n} coefficients in a row, received ${coefficients.length}.`);
    const sign = bound < 0 ? -1 : 1;
    const base = row * width;
    for (let j = 0; j < n; j++) table[base + j] = sign * coefficients[j];
    table[base + right] = sign * bound;
    const artificial = n + slacks + row;
    if (kind === "at-most") {
      table[base + slack] = sign;
      basis[row] = sign > 0 ? slack : artificial;
      slack++;
    } else basis[row] = artificial;
    if (basis[row] === artificial) table[base + artificial] = 1;
  });

  const phaseOne = new Float64Array(width);
  for (let row = 0; row < m; row++)
    if (basis[row] >= n + slacks)
      for (let j = 0; j < width; j++)
        if (j < n + slacks || j === right) phaseOne[j] += table[row * width + j];
  if (basis.some((column) => column >= n + slacks)) {
    run({ table, basis, cost: phaseOne, width }, n + slacks);
    if (phaseOne[right] > TOLERANCE) return { status: "infeasible" };
    driveOut(table, basis, n + slacks, width);
  }

  const cost = new Float64Array(width);
  for (let j = 0; j < n; j++) cost[j] = objective[j];
  for (let row = 0; row < m; row++) {
    const factor = basis[row] < n ? objective[basis[row]] : 0;
    if (factor !== 0) for (let j = 0; j < width; j++) cost[j] -= factor * table[row * width + j];
  }
  if (!run({ table, basis, cost, width }, n + slacks)) return { status: "unbounded" };
  const x = new Float64Array(n);
  for (let row = 0; row < m; row++) if (basis[row] < n) x[basis[row]] = table[row * width + right];
  return { status: "optimal", value: -cost[right], x };
}

/** A tableau of the simplex method; pivots change it in place. */
interface Tableau {
  /** Row-major, `width` a row, the right side last. */
  readonly table: Float64Array;
  /** Column that each row solves for. */
  readonly basis: Int32Array;
  /** Reduced cost of each column. */
  readonly cost: Float64Array;
  readonly width: number;
}

/** Pivots among the first `columns` until no reduced cost is positive. @returns false where the objective has no bound. */
function run(tableau: Tableau, columns: number): boolean {
  const { table, basis, cost, width } = tableau;
  const m = basis.length;
  const right = width - 1;
  for (let pivots = 0; pivots < MOST_PIVOTS; pivots++) {
    let enter = -1;
    for (let j = 0; j < columns; j++) {
      if (cost[j] <= TOLERANCE) continue;
      if (enter < 0 || cost[j] > cost[enter]) enter = j;
      if (pivots >= PIVOTS_BEFORE_BLAND) break;
    }
    if (enter < 0) return true;
    let leave = -1;
    let least = Infinity;
    for (let row = 0; row < m; row++) {
      const a = table[row * width + enter];
      if (a <= TOLERANCE) continue;
      const ratio = table[row * width + right] / a;
      if (
        ratio < least - TOLERANCE ||
        (ratio < least + TOLERANCE && leave >= 0 && basis[row] < basis[leave])
      ) {
        least = Math.min(least, ratio);
        leave = row;
      }
    }
    if (leave < 0) return false;
    pivot(tableau, leave, enter);
  }
  return true;
}

function pivot({ table, basis, cost, width }: Tableau, row: number, column: number): void {
  const base = row * width;
  const divisor = table[base + column];
  for (let j = 0; j < width; j++) table[base + j] /= divisor;
  for (let r = 0; r < basis.length; r++) {
    const factor = r === row ? 0 : table[r * width + column];
    if (factor !== 0)
      for (let j = 0; j < width; j++) table[r * width + j] -= factor * table[base + j];
  }
  const factor = cost[column];
  if (factor !== 0) for (let j = 0; j < width; j++) cost[j] -= factor * table[base + j];
  basis[row] = column;
}

/** Artificials left in the basis at zero are swapped for any real column; a row without one is redundant and stays zero. */
function driveOut(table: Float64Array, basis: Int32Array, columns: number, width: number): void {
  const none = new Float64Array(width);
  for (let row = 0; row < basis.length; row++) {
    if (basis[row] < columns) continue;
    for (let j = 0; j < columns; j++)
      if (Math.abs(table[row * width + j]) > TOLERANCE) {
        pivot({ table, basis, cost: none, width }, row, j);
        break;
      }
  }
}
