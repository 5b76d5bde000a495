/**
 * Comma-separated values after RFC 4180, with `\n` line ends. Numbers are written as the shortest text that reads
 * back to the same number; what has no value is an empty field. A text field that a spreadsheet would run as a
 * formula (it begins with = + - @) is led by an apostrophe (OWASP, "CSV Injection"); names in case files may hold control
 * characters, which are left out, line breaks becoming blanks.
 */

import { plainText } from './plain-text.ts';

export type CsvValue = number | string | boolean | null | undefined;

/** The whole file: the header line, then one line a row. */
export function csvText(
  columns: readonly string[],
  rows: Iterable<Readonly<Record<string, CsvValue>>> | Iterable<object>,
): string {
  let text = csvLine(columns);
  for (const row of rows) {
    const cells = row as Readonly<Record<string, CsvValue>>;
    text += csvLine(columns.map((column) => cells[column]));
  }
  return text;
}

/** One line with its line end. */
export function csvLine(cells: readonly CsvValue[]): string {
  return `${cells.map(csvField).join(',')}\n`;
}

function csvField(value: CsvValue): string {
  if (value === null || value === undefined) return '';
  if (typeof value === 'number') return Number.isFinite(value) ? String(value) : '';
  if (typeof value === 'boolean') return String(value);
  const plain = plainText(value);
  const harmless = /^[=+\-@]/.test(plain) ? `'${plain}` : plain;
  return /[",\n\r]/.test(harmless) ? `"${harmless.replaceAll('"', '""')}"` : harmless;
}
