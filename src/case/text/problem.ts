/**
 * What is wrong with a case file. All problems of the files are collected and shown at once, each with file, line and
 * column, the line with a caret, what was found, what is allowed, and what to do.
 */

import wrapAnsi from 'wrap-ansi';
import { excerpt, type Place, positionAt } from './source.ts';

export interface Problem {
  readonly place: Place;
  /** What is wrong, with what was found and what is allowed. */
  readonly message: string;
  /** What to do about it; may be empty. */
  readonly hint: string;
  /** The file that could not be read, where that is the problem. */
  readonly unreadable?: string;
}

/** Adds a problem to a file's, and ends reading where there are too many. @throws CaseProblems */
export function addProblem(problems: Problem[], problem: Problem): void {
  problems.push(problem);
  if (problems.length >= MOST_PROBLEMS) throw new CaseProblems(problems);
}

/** One or more problems in case files; the command line ends with exit code 3. */
export class CaseProblems extends Error {
  readonly exitCode = 3;
  readonly problems: readonly Problem[];

  constructor(problems: readonly Problem[]) {
    const ordered = inReadingOrder(problems);
    super(renderProblems(ordered));
    this.name = 'CaseProblems';
    this.problems = ordered;
  }
}

/** A file that could not be read or written; the command line ends with exit code 6. */
export class FileProblem extends Error {
  readonly exitCode = 6;
  readonly file: string;

  constructor(file: string, message: string) {
    super(message);
    this.name = 'FileProblem';
    this.file = file;
  }
}

/** The error of some problems: where every one is a file that could not be read, that is no fault of what the case says. */
export function problemsOf(problems: readonly Problem[]): CaseProblems | FileProblem {
  const file = problems[0]?.unreadable;
  const onlyFiles = file !== undefined && problems.every(({ unreadable }) => unreadable !== undefined);
  return onlyFiles
    ? new FileProblem(file, renderProblems(inReadingOrder(problems)))
    : new CaseProblems(problems);
}

/** Position, message, source line, caret and hint of one problem. */
export function renderProblem(problem: Problem): string {
  const { line, column } = positionAt(problem.place.source, problem.place.start);
  const shown = excerpt(problem.place);
  const number = String(line);
  const lines = [
    `${problem.place.source.name}:${line}:${column}: ${problem.message}`,
    `  ${number} | ${shown.line}`,
    `  ${' '.repeat(number.length)} | ${shown.carets}`,
  ];
  if (problem.hint !== '') lines.push(...folded(problem.hint));
  return lines.map((text) => text.trimEnd()).join('\n');
}

/** Width that a hint keeps to, which may list many keys [characters]. */
const WIDTH = 80;
const INDENT = '  ';

/** A hint over lines of at most `WIDTH`, indented, each under the one before. */
function folded(hint: string): readonly string[] {
  return wrapAnsi(hint, WIDTH - INDENT.length)
    .split('\n')
    .map((line) => INDENT + line);
}

/** Problems that are shown; a file with more is not of its kind at all. */
const SHOWN = 40;

/** Problems after which reading stops; what follows would only be more of the same. */
export const MOST_PROBLEMS = 50;

function renderProblems(problems: readonly Problem[]): string {
  const parts = problems.slice(0, SHOWN).map(renderProblem);
  const more = problems.length > SHOWN ? `, the first ${SHOWN} shown` : '';
  const end = problems.length >= MOST_PROBLEMS ? '; reading stopped there' : '';
  if (problems.length > 1) parts.push(`${problems.length} problems${more}${end}`);
  return parts.join('\n\n');
}

function inReadingOrder(problems: readonly Problem[]): readonly Problem[] {
  const sources = [...new Set(problems.map((problem) => problem.place.source))];
  const rank = (problem: Problem): number => sources.indexOf(problem.place.source);
  return problems.toSorted((a, b) => rank(a) - rank(b) || a.place.start - b.place.start);
}

/** What reading gives; null: it is refused. */
export function unlessRefused<T>(read: () => T): T | null {
  try {
    return read();
  } catch (error) {
    if (error instanceof CaseProblems) return null;
    throw error;
  }
}
