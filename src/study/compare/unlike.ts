/** Where drafts were not computed alike, so that a small difference between them is no difference of the pipes. */

import type { SweepResult } from '../../engine/read/result.ts';

/** Settings that move all numbers a little, as they stand in a case. */
const SETTINGS = ['scheme', 'courant', 'friction', 'wallHeat', 'mixing', 'maxCycles'] as const;

export interface NamedSweep {
  readonly name: string;
  readonly sweep: Pick<SweepResult, 'case' | 'program'>;
}

/** Sentences; none where all were computed alike. */
export function unlikeNotes(drafts: readonly NamedSweep[]): readonly string[] {
  const differs = (read: (one: NamedSweep) => unknown): boolean =>
    new Set(drafts.map((one) => JSON.stringify(read(one)))).size > 1;
  const each = (read: (one: NamedSweep) => string): string =>
    drafts.map((one) => `${one.name} ${read(one)}`).join(', ');
  const notes: string[] = [];
  if (differs(({ sweep }) => sweep.case.run.cell)) {
    const cells = each(({ sweep }) => `${Number((1000 * sweep.case.run.cell).toFixed(2))} mm`);
    notes.push(`Not on the same cells (${cells}): a per cent of torque between them may be the mesh.`);
  }
  const others = SETTINGS.filter((name) => differs(({ sweep }) => sweep.case.run[name]));
  if (others.length > 0) notes.push(`Not run alike: run.${others.join(', run.')} differ.`);
  if (differs(({ sweep }) => sweep.program))
    notes.push(`Not run by the same program: ${each(({ sweep }) => sweep.program)}.`);
  return notes;
}
