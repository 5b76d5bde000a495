/**
 * Where something stands: a text that was read (a file, a `--set` argument, a default), and a stretch of it. A place
 * turns into line and column, both counted from 1, and into an excerpt with a caret line under it.
 */

import { printable } from './printable.ts';

export interface Source {
  /** Name to show: the path as the user gave it, or `--set`. */
  readonly name: string;
  /** Folder that relative paths in it start from. */
  readonly folder: string;
  readonly text: string;
}

export interface Place {
  readonly source: Source;
  /** Offsets into the text, end exclusive. */
  readonly start: number;
  readonly end: number;
}

export interface Position {
  readonly line: number;
  readonly column: number;
}

/** Longest stretch of a source line that is shown [characters], and of a line that is looked at around a place. */
const EXCERPT = 72;
const NEAR = 10 * EXCERPT;

/** Line and column of an offset; columns count characters, not bytes. */
export function positionAt(source: Source, offset: number): Position {
  const before = source.text.slice(0, offset).split(/\r\n|\n|\r/);
  return { line: before.length, column: [...before.at(-1)!].length + 1 };
}

/** The line of a place and a line of carets under it. */
export function excerpt(place: Place): { readonly line: string; readonly carets: string } {
  const { text: whole } = place.source;
  // A line may be a whole file long, and be asked for once for each problem.
  const first = Math.max(0, place.start - NEAR);
  const text = whole.slice(0, place.start + NEAR);
  const broken = /[\r\n][^\r\n]*$/.exec(whole.slice(first, place.start));
  const starts = first + (broken === null ? 0 : broken.index + 1);
  const rest = text.slice(starts).search(/[\r\n]/);
  const line = [...printable(text.slice(starts, rest < 0 ? undefined : starts + rest))];
  const column = [...text.slice(starts, place.start)].length;
  const span = Math.max(1, [...text.slice(place.start, Math.max(place.start, place.end))].length);
  const length = Math.max(1, Math.min(span, line.length - column));
  if (line.length <= EXCERPT) return { line: line.join(''), carets: ' '.repeat(column) + '^'.repeat(length) };
  const from = Math.max(0, Math.min(column - 24, line.length - EXCERPT));
  const shown = line.slice(from, from + EXCERPT);
  const ahead = from > 0 ? '…' : '';
  const behind = from + EXCERPT < line.length ? '…' : '';
  const carets = '^'.repeat(Math.max(1, Math.min(length, EXCERPT - (column - from))));
  return {
    line: `${ahead}${shown.join('')}${behind}`,
    carets: ' '.repeat(ahead.length + column - from) + carets,
  };
}
