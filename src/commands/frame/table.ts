/**
 * Tables for a terminal of 80 columns: names over units over aligned cells, one blank pair between columns, the row
 * that matters marked with `>`. If a table is too wide, optional columns go first, from the right; then the widest
 * text column is shortened.
 */

import { plainText, shortened, textWidth } from './plain-text.ts';

export interface Column<Row> {
  readonly header: string;
  /** Shown in brackets under the header. */
  readonly unit?: string;
  /** Numbers to the right, text to the left; right is the default. */
  readonly align?: 'left' | 'right';
  /** May be left out where the width does not suffice. */
  readonly optional?: boolean;
  readonly text: (row: Row) => string;
}

export interface TableOptions<Row> {
  readonly width?: number;
  readonly marked?: (row: Row) => boolean;
  /** Print the marked row in bold. */
  readonly colour?: boolean;
}

interface LaidOut {
  readonly optional: boolean;
  readonly left: boolean;
  /** Header, unit, then one cell a row. */
  readonly cells: readonly string[];
  width: number;
}

const GAP = 2;
const NARROWEST = 6;

/** The table as lines, each ended by a line break. */
export function tableText<Row>(
  columns: readonly Column<Row>[],
  rows: readonly Row[],
  options: TableOptions<Row> = {},
): string {
  const marks = rows.map((row) => options.marked?.(row) ?? false);
  const indent = options.marked === undefined ? '' : '  ';
  const laidOut = fitted(
    columns.map((column) => layOut(column, rows)),
    (options.width ?? 80) - indent.length,
  );
  const hasUnits = columns.some((column) => column.unit !== undefined);
  let text = '';
  for (let line = 0; line < rows.length + 2; line += 1) {
    if (line === 1 && !hasUnits) continue;
    const marked = line > 1 && marks[line - 2] === true;
    const cells = laidOut.map((column) => padded(column.cells[line] ?? '', column)).join(' '.repeat(GAP));
    const content = `${marked ? '> ' : indent}${cells}`.trimEnd();
    text += marked && options.colour === true ? `\u001b[1m${content}\u001b[22m\n` : `${content}\n`;
  }
  return text;
}

function layOut<Row>(column: Column<Row>, rows: readonly Row[]): LaidOut {
  const unit = column.unit === undefined ? '' : `[${column.unit}]`;
  const cells = [column.header, unit, ...rows.map(column.text)].map(plainText);
  return {
    optional: column.optional ?? false,
    left: column.align === 'left',
    cells,
    width: Math.max(...cells.map(textWidth)),
  };
}

function totalWidth(columns: readonly LaidOut[]): number {
  return columns.reduce((sum, column) => sum + column.width + GAP, -GAP);
}

function fitted(columns: readonly LaidOut[], width: number): readonly LaidOut[] {
  let kept = columns;
  while (totalWidth(kept) > width) {
    const last = kept.findLastIndex((column) => column.optional);
    if (last < 0) break;
    kept = kept.filter((_, index) => index !== last);
  }
  let excess = totalWidth(kept) - width;
  while (excess > 0) {
    const texts = kept.filter((column) => column.left && column.width > NARROWEST);
    const widest = texts.reduce((a, b) => (b.width > a.width ? b : a), texts[0]!);
    if (widest === undefined) break;
    widest.width = Math.max(NARROWEST, widest.width - excess);
    excess = totalWidth(kept) - width;
  }
  return kept;
}

function padded(cell: string, column: LaidOut): string {
  const text = shortened(cell, column.width);
  const blanks = ' '.repeat(Math.max(0, column.width - textWidth(text)));
  return column.left ? text + blanks : blanks + text;
}
