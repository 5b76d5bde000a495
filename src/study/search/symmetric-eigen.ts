/** Eigenvalues and eigenvectors of a small symmetric matrix A = B diag(d) Bᵀ, by mathjs, which only a search loads. */

import { eigs } from 'mathjs';

export type Matrix = number[][];

export interface Eigen {
  /** Eigenvalues d, in the order of the columns of B. */
  readonly values: readonly number[];
  /** B: eigenvectors in columns, orthonormal. */
  readonly vectors: readonly (readonly number[])[];
}

/** How exact the eigenvalues are, over the largest entry [-]. */
const PRECISION = 1e-14;

export function symmetricEigen(matrix: readonly (readonly number[])[]): Eigen {
  // Round-off may leave the two halves of a covariance unlike in the last digit, which would no longer count as symmetric.
  const whole = matrix.map((row, i) => row.map((value, j) => (j < i ? (matrix[j]?.[i] ?? 0) : value)));
  const found = alongAxes(eigs(whole, PRECISION).eigenvectors as readonly EigenPair[]);
  return {
    values: found.map(({ value }) => value),
    vectors: whole.map((_, i) => found.map(({ vector }) => vector[i]!)),
  };
}

interface EigenPair {
  readonly value: number;
  readonly vector: readonly number[];
}

/**
 * Each vector put beside the axis that it lies nearest to, and turned along it: sign and order of eigenvectors are free, and so a
 * matrix that is all but diagonal has all but the axes, and moves them little as it moves.
 */
function alongAxes(pairs: readonly EigenPair[]): readonly EigenPair[] {
  const left = [...pairs];
  const placed: EigenPair[] = [];
  for (let axis = 0; axis < pairs.length; axis++) {
    const size = ({ vector }: EigenPair): number => Math.abs(vector[axis]!);
    const nearest = left.reduce((best, pair) => (size(pair) > size(best) ? pair : best));
    left.splice(left.indexOf(nearest), 1);
    const sign = nearest.vector[axis]! < 0 ? -1 : 1;
    placed.push({ value: nearest.value, vector: nearest.vector.map((part) => sign * part) });
  }
  return placed;
}

export function identity(n: number): Matrix {
  return Array.from({ length: n }, (_, i) => Array.from({ length: n }, (_, j) => (i === j ? 1 : 0)));
}
