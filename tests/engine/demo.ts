/** The demo engine for tests: draft A at a speed and a cell length, brief. */

import { loadCase } from '../../src/case/load.ts';
import type { StartGuess } from '../../src/engine/parts/part.ts';
import { runSpeed } from '../../src/engine/run/run-speed.ts';
import type { SweepRow } from '../../src/findings/row.ts';
import type { Case } from '../../src/model/case.ts';

/** Speed of best torque of draft A [rpm]. */
export const BEST = 9750;

export function draft(name: 'a' | 'b' | 'c', set: readonly string[] = []): Case {
  const file = new URL(`../../cases/saltmarsh-125/draft-${name}.yaml`, import.meta.url).pathname;
  return loadCase(file, { set: [...set] });
}

export function withCell(subject: Case, cell: number): Case {
  return { ...subject, run: { ...subject.run, cell } };
}

/** What a plain wave does not have. */
const beside = [
  'other_wave_deg',
  'other_wave_counted',
  'transfer_compression_bar',
  'transfer_compression_deg',
  'transfer_compression_left_deg',
];

/** A row of which every reading was found, but for waves beside the plug-back. */
export type FullRow = { readonly [K in keyof SweepRow]: NonNullable<SweepRow[K]> };

/** @throws if a reading is absent */
export function fullRow(row: SweepRow): FullRow {
  const absent = Object.entries(row).filter(([name, value]) => value === null && !beside.includes(name));
  if (absent.length > 0) throw new Error(`absent: ${absent.map(([name]) => name).join(', ')}`);
  return row as FullRow;
}

export function rowAt(subject: Case, rpm: number, guess?: StartGuess): FullRow {
  const start = guess === undefined ? {} : { guess };
  return fullRow(runSpeed({ subject, rpm, start: null, brief: true, ...start }).record.row);
}
