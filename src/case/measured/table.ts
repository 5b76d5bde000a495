/**
 * Columns of a table, in SI: the heading is the first line that has all the names asked for, whatever stands above it; a line
 * of units may follow. Lines that are no numbers are left out and named, and where they are many the table is refused.
 */

import { nearest } from '../text/nearest.ts';
import { printable, quoted } from '../text/printable.ts';
import type { Problem } from '../text/problem.ts';
import { knownUnit } from '../text/quantity-text.ts';
import type { Place, Source } from '../text/source.ts';
import { DIMENSIONS, dimensionOf, takes, toInside } from '../text/units.ts';
import { type AskedColumn, splitHeading } from './column.ts';
import { type Line, linesOf } from './csv-lines.ts';
import { type DecimalSign, decimalSignOf, writtenNumber } from './written-number.ts';

export interface TableRow {
  readonly line: number;
  readonly place: Place;
  /** By the column's place among those asked for, in SI. */
  readonly values: readonly number[];
}

export interface Table {
  readonly rows: readonly TableRow[];
  /** What was left out, in a sentence. */
  readonly warnings: readonly string[];
}

type Report = (problem: Problem) => void;

/** Lines above the heading at most. */
const PREAMBLE = 60;
/** Share of a table's lines that may be broken before it is refused [-]. */
const BROKEN = 0.1;
/** Lines that are named. */
const NAMED = 8;

/** The rows of a table; null where it was refused, with a problem at its line. */
export function readTable(source: Source, asked: readonly AskedColumn[], report: Report): Table | null {
  const { lines } = linesOf(source);
  const first = lines[0];
  if (first === undefined) {
    report({ place: { source, start: 0, end: 1 }, message: 'the table is empty', hint: 'export it again' });
    return null;
  }
  const heading = lines
    .slice(0, PREAMBLE)
    .findIndex((line) => asked.every(({ name }) => indexOf(line, name) >= 0));
  if (heading < 0) return refuseHeading(lines, asked, report);
  const top = lines[heading]!;
  const below = lines[heading + 1];
  const at = asked.map(({ name }) => indexOf(top, name));
  const unitLine = below !== undefined && isUnitLine(below, at, asked) ? below : null;
  const units = asked.map((column, k) => unitOf(column, [top, unitLine], at[k]!, report));
  if (units.some((unit) => unit === null)) return null;
  const body = lines.slice(heading + (unitLine === null ? 1 : 2));
  return bodyOf(source, body, { at, asked, units: units as readonly string[] }, report);
}

interface Columns {
  readonly at: readonly number[];
  readonly asked: readonly AskedColumn[];
  readonly units: readonly string[];
}

function bodyOf(
  source: Source,
  body: readonly Line[],
  { at, asked, units }: Columns,
  report: Report,
): Table | null {
  const sign = decimalSignOf(body.flatMap(({ fields }) => at.map((k) => fields[k]?.text ?? '')));
  const rows: TableRow[] = [];
  const broken: { readonly line: Line; readonly place: Place }[] = [];
  for (const line of body) {
    const values = at.map((k, column) =>
      inside(line.fields[k]?.text ?? '', sign, units[column]!, asked[column]!),
    );
    const wrong = values.indexOf(null);
    if (wrong < 0) rows.push({ line: line.number, place: line.place, values: values as number[] });
    else broken.push({ line, place: line.fields[at[wrong]!]?.place ?? line.place });
  }
  const [first] = broken;
  if (first !== undefined && (rows.length === 0 || broken.length > Math.max(2, BROKEN * body.length))) {
    const many = `${broken.length} of ${body.length} lines`;
    report({
      place: first.place,
      message: `no number where a value is due, as in ${many}: lines ${listed(broken.map(({ line }) => line.number))}`,
      hint: 'mend these lines or take them out; numbers are read with a decimal point or a decimal comma',
    });
    return null;
  }
  if (body.length === 0) {
    report({
      place: { source, start: 0, end: 1 },
      message: 'no values stand below the heading',
      hint: 'export it again',
    });
    return null;
  }
  const count = broken.length === 1 ? 'a broken line was' : `${broken.length} broken lines were`;
  const where = broken.map(({ line }) => line.number);
  const warnings =
    broken.length === 0
      ? []
      : [`${source.name}:${where[0]!}: ${count} left out (${lineWord(where)} ${listed(where)}).`];
  return { rows, warnings };
}

const lineWord = (numbers: readonly number[]): string => (numbers.length === 1 ? 'line' : 'lines');

const listed = (numbers: readonly number[]): string =>
  numbers.slice(0, NAMED).join(', ') + (numbers.length > NAMED ? ' and more' : '');

function inside(text: string, sign: DecimalSign, unit: string, { dimension }: AskedColumn): number | null {
  const number = writtenNumber(text, sign);
  return number === null ? null : toInside(String(number), unit, dimension);
}

const plain = (text: string): string =>
  text
    .toLowerCase()
    .replaceAll(/[\s_]+/g, ' ')
    .trim();

/** Place of a column in a heading, by its whole text or by its name without the unit; -1: it has none. */
function indexOf({ fields }: Line, name: string): number {
  const exact = fields.findIndex(({ text }) => plain(text) === plain(name));
  return exact >= 0 ? exact : fields.findIndex(({ text }) => plain(splitHeading(text).name) === plain(name));
}

function refuseHeading(lines: readonly Line[], asked: readonly AskedColumn[], report: Report): null {
  const found = (line: Line): number => asked.filter(({ name }) => indexOf(line, name) >= 0).length;
  const looked = lines.slice(0, PREAMBLE);
  const widest = looked.reduce((best, line) => (line.fields.length > best.fields.length ? line : best));
  const best = looked.reduce((most, line) => (found(line) > found(most) ? line : most), widest);
  const names = best.fields.map(({ text }) => text).filter((text) => text !== '');
  for (const { name } of asked.filter((one) => indexOf(best, one.name) < 0)) {
    const near = nearest(
      name,
      names.map((text) => splitHeading(text).name),
    );
    const has = `the heading has ${names.slice(0, 20).map(printable).join(', ')}`;
    report({
      place: best.place,
      message: `there is no column ${quoted(name)}`,
      hint: near === null ? has : `did you mean ${quoted(near)}? ${has}`,
    });
  }
  return null;
}

/** Whether a line has units below the columns: no number, and for one of them at least a unit that is known. */
function isUnitLine(line: Line, at: readonly number[], asked: readonly AskedColumn[]): boolean {
  const texts = at.map((k) => bare(line.fields[k]?.text ?? ''));
  const numbers = texts.some(
    (text) => writtenNumber(text, '.') !== null || writtenNumber(text, ',') !== null,
  );
  return (
    !numbers &&
    texts.some((text, k) => knownUnit(text, asked[k]!.dimension) !== null || dimensionOf(text) !== null)
  );
}

const bare = (text: string): string => text.replaceAll(/^[[(]|[\])]$/g, '').trim();

/** The unit of a column: as asked for, as its heading says, or as the line below does; null and told where they differ. */
function unitOf(
  column: AskedColumn,
  [top, below]: readonly [Line, Line | null],
  at: number,
  report: Report,
): string | null {
  const { dimension, name, unit } = column;
  const field = top.fields[at]!;
  const under = below?.fields[at];
  const written =
    splitHeading(field.text).unit ?? (under === undefined || under.text === '' ? null : bare(under.text));
  const place = splitHeading(field.text).unit === null && under !== undefined ? under.place : field.place;
  const heading = written === null ? null : knownUnit(written, dimension);
  const { called } = DIMENSIONS[dimension];
  if (heading === null && written !== null && dimensionOf(written) !== null) {
    const is = DIMENSIONS[dimensionOf(written)!].called;
    report({
      place,
      message: `${quoted(written)} is of ${is}, and ${quoted(name)} is to be ${called}`,
      hint: takes(dimension),
    });
    return null;
  }
  if (unit === null && heading === null) {
    const message = `nothing says what unit ${quoted(name)} is in`;
    report({
      place: column.place,
      message,
      hint: `write it behind the name, like "${name} [${Object.keys(DIMENSIONS[dimension].units)[0]!}]"`,
    });
    return null;
  }
  if (unit !== null && heading !== null && !isSame(unit, heading, dimension)) {
    const message = `the heading says ${quoted(written ?? '')}, and ${quoted(name)} was to be in ${unit}`;
    report({ place, message, hint: 'put the right one of the two into the file that names the column' });
    return null;
  }
  return unit ?? heading;
}

const isSame = (a: string, b: string, dimension: AskedColumn['dimension']): boolean =>
  toInside('1', a, dimension) === toInside('1', b, dimension);
