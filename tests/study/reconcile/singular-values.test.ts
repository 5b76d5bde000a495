/** Ring: identity. Singular values against the definition, and against the eigenvalues of AᵀA that mathjs finds. */

import { eigs, multiply, transpose } from 'mathjs';
import { describe, expect, test } from 'vitest';
import { singularValues } from '../../../src/study/reconcile/singular-values.ts';
import { randomSource } from '../../../src/study/search/random.ts';

function columnsOf(rows: number, columns: number, seed: number): number[][] {
  const random = randomSource(seed);
  return Array.from({ length: columns }, () => Array.from({ length: rows }, () => random.normal()));
}

const dot = (x: readonly number[], y: readonly number[]): number =>
  x.reduce((sum, value, k) => sum + value * y[k]!, 0);

describe.each([
  [30, 8],
  [8, 30],
  [5, 5],
])('of %i rows and %i columns', (rows, columns) => {
  const A = columnsOf(rows, columns, rows + 100 * columns);
  const { s, U, V } = singularValues(A);

  test('are as many as the shorter side has, descending, with vectors at right angles', () => {
    expect(s).toHaveLength(Math.min(rows, columns));
    expect(s).toEqual(s.toSorted((a, b) => b - a));
    for (const vectors of [U, V])
      for (const [i, x] of vectors.entries())
        for (const [j, y] of vectors.entries())
          expect(Math.abs(dot(x, y) - (i === j ? 1 : 0))).toBeLessThan(1e-12);
  });

  test('put the matrix together again', () => {
    for (let row = 0; row < rows; row++)
      for (let column = 0; column < columns; column++) {
        const sum = s.reduce((part, value, k) => part + U[k]![row]! * value * V[k]![column]!, 0);
        expect(Math.abs(sum - A[column]![row]!)).toBeLessThan(1e-12);
      }
  });

  test('are the roots of the eigenvalues of its square', () => {
    const square = multiply(A, transpose(A)) as number[][];
    const symmetric = square.map((row, i) => row.map((value, j) => (j < i ? square[j]![i]! : value)));
    const values = (eigs(symmetric, 1e-12).values as number[]).toSorted((a, b) => b - a);
    for (const [k, value] of s.entries())
      expect(Math.abs(value ** 2 - values[k]!)).toBeLessThan(1e-6 * s[0]! ** 2);
  });
});

test('that are nought are left out: members less their mean have one direction fewer than there are members', () => {
  const A = columnsOf(12, 6, 3);
  const mean = A[0]!.map((_, row) => A.reduce((sum, column) => sum + column[row]!, 0) / 6);
  expect(singularValues(A.map((column) => column.map((value, row) => value - mean[row]!))).s).toHaveLength(5);
  expect(
    singularValues([
      [0, 0],
      [0, 0],
    ]).s,
  ).toEqual([]);
});
