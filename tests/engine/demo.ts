/** The demo engine for tests: draft A at a speed and a cell length, brief. */

import { loadCase } from '../../src/case/load.ts';
import { runSpeed } from '../../src/engine/run/run-speed.ts';
import type { StartGuess } from '../../src/engine/run/state.ts';
import type { SweepRow } from '../../src/findings/row.ts';
import type { Case } from '../../src/model/case.ts';

/** Speed of best torque of draft A [rpm]. */
export const BEST = 10_250;

export function draft(name: 'a' | 'b' | 'c', set: readonly string[] = []): Case {
  const file = new URL(`../../../cases/saltmarsh-125/draft-${name}.yaml`, import.meta.url).pathname;
  return loadCase(file, { set: [...set] });
}

export function withCell(subject: Case, cell: number): Case {
  return { ...subject, run: { ...subject.run, cell } };
}

export function rowAt(subject: Case, rpm: number, guess?: StartGuess): SweepRow {
  const start = guess === undefined ? {} : { guess };
  return runSpeed({ subject, rpm, start: null, brief: true, ...start }).record.row;
}
