/** What scripts may rely on: the draft and the answer of a page, by `window.board`. */

import { valueAt } from '../../../src/board/desk.ts';
import { withSetting } from '../../../src/board/settings.ts';
import { pipeFile } from '../../../src/board/taken-away.ts';
import type { SweepRow } from '../../../src/findings/row.ts';
import type { DraftHistory } from './draft-history.ts';
import { rowsOf } from './kept-answers.ts';
import type { Pursuit } from './pursuit.ts';

export interface BoardApi {
  /** Puts a value in at a path, as a file would say it; the reason why it cannot be, or null. */
  set(path: string, text: string): string | null;
  get(path: string): string | null;
  rows(): readonly SweepRow[];
  /** Length of a cell of the mesh now shown, with its unit. */
  cell(): string;
  undo(): boolean;
  redo(): boolean;
  pipeYaml(): string;
  caseYaml(): string;
  choose(rpm: number): void;
}

declare global {
  interface Window {
    board?: BoardApi;
  }
}

/** What the board does for a script, as for a hand. */
export interface BoardHands {
  /** Tries changes as a step of their own; the reason why they cannot be, or null. */
  step(set: readonly string[]): string | null;
  walk(way: 'undo' | 'redo'): boolean;
  caseYaml(): string;
}

export function boardApi(history: DraftHistory, pursuit: Pursuit, hands: BoardHands): BoardApi {
  return {
    set: (path, text) => hands.step(withSetting(history.set, path, text)),
    get: (path) => valueAt(history.subject, path),
    rows: () => rowsOf(pursuit.shown),
    cell: () => `${Number((1000 * pursuit.shown.cell).toPrecision(6))} mm`,
    undo: () => hands.walk('undo'),
    redo: () => hands.walk('redo'),
    pipeYaml: () => pipeFile(history.subject),
    caseYaml: hands.caseYaml,
    choose: (rpm) => pursuit.choose(rpm),
  };
}
