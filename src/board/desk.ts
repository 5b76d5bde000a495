/**
 * The case that a board was opened with, and what becomes of it with changes: read by the same schema as a case file, so that
 * whatever a file may not say is refused here in the same words. No file is read: engine and pipe stand in the document.
 */

import { caseOf, type OpenedFile } from '../case/load.ts';
import { parseSource } from '../case/text/document.ts';
import { CaseProblems, type Problem } from '../case/text/problem.ts';
import type { Plain } from '../case/text/tree.ts';
import type { Case } from '../model/case.ts';
import { withRun } from '../study/work/run-settings.ts';
import { pathOf } from './settings.ts';

/** What a page carries of a case. */
export interface BoardCase {
  /** Name of its file, for messages. */
  readonly file: string;
  readonly document: Plain;
  /** Overrides of the command line. */
  readonly set: readonly string[];
  /** Cell length [m] and speeds [rpm] in place of the case's; null: as the case says. */
  readonly cell: number | null;
  readonly speeds: readonly number[] | null;
}

export interface Desk {
  readonly carried: BoardCase;
  readonly opened: OpenedFile;
}

export type Reading =
  | { readonly ok: true; readonly subject: Case }
  | { readonly ok: false; readonly words: string };

/** @throws CaseProblems where the document is none */
export function openDesk(carried: BoardCase): Desk {
  const problems: Problem[] = [];
  const source = { name: carried.file, folder: '', text: JSON.stringify(carried.document, null, 1) };
  const root = parseSource(source, (problem) => void problems.push(problem));
  if (root?.kind !== 'map' || problems.length > 0) throw new CaseProblems(problems);
  return { carried, opened: { file: carried.file, kind: 'case', root, parts: new Map() } };
}

/** The case with changes, or why it is none. */
export function readDesk({ carried, opened }: Desk, set: readonly string[]): Reading {
  const whole = set.find((one) => ['engine', 'pipe'].includes(pathOf(one)));
  if (whole !== undefined)
    return {
      ok: false,
      words: `${pathOf(whole)}: a whole part is not exchanged here; open a board with that case`,
    };
  try {
    const { cell, speeds } = carried;
    const subject = withRun(caseOf(opened, set), {
      ...(cell === null ? {} : { cell }),
      ...(speeds === null ? {} : { speeds }),
    });
    return { ok: true, subject };
  } catch (error) {
    return { ok: false, words: wordsOf(error) };
  }
}

/** Problems in a sentence each, without the place: on the board there are no lines. */
function wordsOf(error: unknown): string {
  if (error instanceof CaseProblems)
    return error.problems
      .map(({ message, hint }) => (hint === '' ? message : `${message} (${hint})`))
      .join('; ');
  return error instanceof Error ? error.message : String(error);
}

/** The value at a path as it is used, with its unit; null: there is none. Items of a list go by name or by number. */
export function valueAt(subject: Case, path: string): string | null {
  const found = subject.inputs.find((input) => input.path === path);
  if (found !== undefined) return found.value;
  const named = path.replace(/^pipe\.sections\.(\d+)\./, (whole, index: string) => {
    const name = subject.pipe.sections[Number(index)]?.name;
    return name === undefined ? whole : `pipe.sections.${name}.`;
  });
  return subject.inputs.find((input) => input.path === named)?.value ?? null;
}
