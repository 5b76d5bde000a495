/**
 * A field over two axes, brought to the rows and columns that a page has room for. ndarray, which shapes it, makes its
 * code from text, and a page's policy forbids that: this runs where a page is written, not in the page.
 */

import ndarray, { type NdArray } from 'ndarray';
import { feet } from './packing.ts';

export interface Field {
  /** Places of the rows and of the columns, ascending. */
  readonly rows: ArrayLike<number>;
  readonly columns: ArrayLike<number>;
  /** A value for each row and column, in that order. */
  readonly values: NdArray<Float64Array>;
}

/** A field from its values as a file holds them, one row after another. */
export const fieldOf = (
  rows: ArrayLike<number>,
  columns: ArrayLike<number>,
  flat: ArrayLike<number>,
): Field => ({
  rows,
  columns,
  values: ndarray(Float64Array.from(flat), [rows.length, columns.length]),
});

/** Bilinear interpolation of a field onto new rows and columns; beyond its ends it is held. */
export function resampleField(
  { rows, columns, values }: Field,
  freshRows: ArrayLike<number>,
  freshColumns: ArrayLike<number>,
): NdArray<Float64Array> {
  const [height, width] = [freshRows.length, freshColumns.length];
  const result = ndarray(new Float64Array(height * width), [height, width]);
  const across = feet(columns, freshColumns);
  const last = { row: rows.length - 1, column: columns.length - 1 };
  feet(rows, freshRows).forEach(({ cell: row, share: up }, j) => {
    const above = Math.min(row + 1, last.row);
    across.forEach(({ cell: left, share: along }, i) => {
      const right = Math.min(left + 1, last.column);
      const on = (r: number): number =>
        values.get(r, left) + along * (values.get(r, right) - values.get(r, left));
      result.set(j, i, on(row) + up * (on(above) - on(row)));
    });
  });
  return result;
}
