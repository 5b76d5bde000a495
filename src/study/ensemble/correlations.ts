/** Correlations of columns, the Cholesky factor of a matrix of them, and the way from one set of them to another. */

type Matrix = readonly (readonly number[])[];

/** Pearson's correlations between the columns of a table of rows. */
export function correlations(rows: Matrix): Matrix {
  const columns = (rows[0] ?? []).map((_, k) => {
    const column = rows.map((row) => row[k]!);
    const mean = column.reduce((sum, value) => sum + value, 0) / column.length;
    const size = Math.sqrt(column.reduce((sum, value) => sum + (value - mean) ** 2, 0));
    return column.map((value) => (value - mean) / size);
  });
  return columns.map((a) => columns.map((b) => (a === b ? 1 : a.reduce((sum, x, i) => sum + x * b[i]!, 0))));
}

/** The lower factor L of a positive definite matrix R = L Lᵀ. @throws RangeError where R is none */
export function cholesky(R: Matrix): Matrix {
  const L: number[][] = [];
  for (const [i, row] of R.entries()) {
    const line: number[] = [];
    for (let j = 0; j <= i; j += 1) {
      const other = j === i ? line : L[j]!;
      const rest = row[j]! - other.slice(0, j).reduce((sum, l, k) => sum + l * line[k]!, 0);
      if (j === i && !(rest > 0)) throw new RangeError('The correlations contradict each other.');
      line.push(j === i ? Math.sqrt(rest) : rest / L[j]![j]!);
    }
    L.push(line);
  }
  return L;
}

/** Solves L w = v for a lower factor, from the top. */
export function solveLower(L: Matrix, v: readonly number[]): readonly number[] {
  const w: number[] = [];
  for (const [i, row] of L.entries()) {
    const rest = w.reduce((sum, value, j) => sum - row[j]! * value, v[i]!);
    w.push(rest / row[i]!);
  }
  return w;
}

/** Rows s as P Q⁻¹ s, of lower factors P and Q. */
export function timesInverse(rows: Matrix, P: Matrix, Q: Matrix): Matrix {
  return rows.map((row) => {
    const x = solveLower(Q, row);
    return P.map((line) => line.reduce((sum, p, k) => sum + p * x[k]!, 0));
  });
}
