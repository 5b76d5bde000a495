/**
 * Singular values of a small matrix, A = U diag(s) Vᵀ, by rotations of its columns until all are at right angles to each
 * other (one-sided Jacobi; Golub & Van Loan, Matrix Computations, 8.6.3). Only square roots are taken, so that the bits are
 * the same on every machine.
 */

export interface SingularValues {
  /** Descending, those that are nought left out. */
  readonly s: readonly number[];
  /** `U[k]`: the left vector of the k-th value, one entry a row of A; unit length. */
  readonly U: readonly (readonly number[])[];
  /** `V[k]`: the right vector of the k-th value, one entry a column of A; unit length. */
  readonly V: readonly (readonly number[])[];
}

const SWEEPS = 40;
/** Columns whose cosine is below this are at right angles. */
const RIGHT = 1e-14;
/** Values below this share of the largest are nought. */
const NOUGHT = 1e-12;

/** Of a matrix by its columns. */
export function singularValues(columns: readonly (readonly number[])[]): SingularValues {
  const rows = columns[0]?.length ?? 0;
  if (rows >= columns.length) return turned(columns);
  // The shorter side is turned: of a matrix stood on end the vectors change sides.
  const { s, U, V } = turned(Array.from({ length: rows }, (_, row) => columns.map((column) => column[row]!)));
  return { s, U: V, V: U };
}

function turned(columns: readonly (readonly number[])[]): SingularValues {
  const n = columns.length;
  const a = columns.map((column) => Float64Array.from(column));
  const v = columns.map((_, k) => Float64Array.from({ length: n }, (_, j) => (j === k ? 1 : 0)));
  for (let sweep = 0; sweep < SWEEPS; sweep++) {
    let any = false;
    for (let p = 0; p < n - 1; p++) for (let q = p + 1; q < n; q++) any = turnApart(a, v, p, q) || any;
    if (!any) break;
  }
  const lengths = a.map((column) => Math.sqrt(dot(column, column)));
  const order = lengths.map((_, k) => k).sort((i, j) => lengths[j]! - lengths[i]! || i - j);
  const largest = lengths[order[0] ?? 0] ?? 0;
  const kept = order.filter((k) => lengths[k]! > NOUGHT * largest && lengths[k]! > 0);
  return {
    s: kept.map((k) => lengths[k]!),
    U: kept.map((k) => Array.from(a[k]!, (value) => value / lengths[k]!)),
    V: kept.map((k) => Array.from(v[k]!)),
  };
}

/** Turns two columns until they are at right angles; false: they were. */
function turnApart(a: readonly Float64Array[], v: readonly Float64Array[], p: number, q: number): boolean {
  const [ap, aq] = [a[p]!, a[q]!];
  const alpha = dot(ap, ap);
  const beta = dot(aq, aq);
  const gamma = dot(ap, aq);
  if (gamma === 0 || Math.abs(gamma) <= RIGHT * Math.sqrt(alpha * beta)) return false;
  const zeta = (beta - alpha) / (2 * gamma);
  const t = Math.sign(zeta || 1) / (Math.abs(zeta) + Math.sqrt(1 + zeta * zeta));
  const c = 1 / Math.sqrt(1 + t * t);
  turn(ap, aq, c, c * t);
  turn(v[p]!, v[q]!, c, c * t);
  return true;
}

function turn(x: Float64Array, y: Float64Array, c: number, s: number): void {
  for (let i = 0; i < x.length; i++) {
    const old = x[i]!;
    x[i] = c * old - s * y[i]!;
    y[i] = s * old + c * y[i]!;
  }
}

function dot(x: ArrayLike<number>, y: ArrayLike<number>): number {
  let sum = 0;
  for (let i = 0; i < x.length; i++) sum += x[i]! * y[i]!;
  return sum;
}
