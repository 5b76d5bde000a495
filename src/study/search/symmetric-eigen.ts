/**
 * Eigenvalues and eigenvectors of a small symmetric matrix A = B diag(d) Bᵀ by cyclic Jacobi rotations (Golub & Van
 * Loan, Matrix Computations, 4th ed., § 8.5). For a dozen quantities that is quick, and it is exact to round-off.
 */

export type Matrix = number[][];

export interface Eigen {
  /** Eigenvalues d, in the order of the columns of B. */
  readonly values: readonly number[];
  /** B: eigenvectors in columns, orthonormal. */
  readonly vectors: readonly (readonly number[])[];
}

const mostSweeps = 60;

export function symmetricEigen(matrix: readonly (readonly number[])[]): Eigen {
  const n = matrix.length;
  const a: Matrix = matrix.map((row) => [...row]);
  const b: Matrix = identity(n);
  for (let sweep = 0; sweep < mostSweeps; sweep += 1) {
    let rotated = false;
    for (let p = 0; p < n; p += 1) for (let q = p + 1; q < n; q += 1) rotated = rotate(a, b, p, q) || rotated;
    if (!rotated) break;
  }
  return { values: a.map((row, i) => row[i] as number), vectors: b };
}

export function identity(n: number): Matrix {
  return Array.from({ length: n }, (_, i) => Array.from({ length: n }, (_, j) => (i === j ? 1 : 0)));
}

/** One rotation that brings a_pq to zero; false if it is nothing beside the diagonal. */
function rotate(a: Matrix, b: Matrix, p: number, q: number): boolean {
  const rowP = a[p] as number[];
  const rowQ = a[q] as number[];
  const apq = rowP[q] as number;
  const app = rowP[p] as number;
  const aqq = rowQ[q] as number;
  if (Math.abs(apq) <= Number.EPSILON * Math.sqrt(Math.abs(app * aqq))) return false;
  const tau = (aqq - app) / (2 * apq);
  const t = Math.sign(tau || 1) / (Math.abs(tau) + Math.hypot(1, tau));
  const c = 1 / Math.hypot(1, t);
  const s = t * c;
  for (const row of a) rotatePair(row, p, q, c, s);
  for (let j = 0; j < a.length; j += 1) {
    const x = rowP[j] as number;
    const y = rowQ[j] as number;
    rowP[j] = c * x - s * y;
    rowQ[j] = s * x + c * y;
  }
  rowP[q] = 0;
  rowQ[p] = 0;
  for (const row of b) rotatePair(row, p, q, c, s);
  return true;
}

function rotatePair(row: number[], p: number, q: number, c: number, s: number): void {
  const x = row[p] as number;
  const y = row[q] as number;
  row[p] = c * x - s * y;
  row[q] = s * x + c * y;
}
