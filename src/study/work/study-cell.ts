/**
 * Cells of a study of many runs. Differences between pipes, roofs and speeds are those of the engine long before the numbers
 * themselves are: 10 mm cells cost a quarter of 5 mm ones and move all drafts alike.
 */

import type { Case } from '../../model/case.ts';

/** Where neither the command line nor the case names a length [m]. */
const STUDY_CELL = 10e-3;

/** Cell length [m]: the one asked for, the one that the case states, or the study's. */
export function studyCell({ run, assumed }: Pick<Case, 'run' | 'assumed'>, asked?: number): number {
  if (asked !== undefined) return asked;
  const isStated = assumed.every(({ path }) => path !== 'run.cell');
  return isStated ? run.cell : Math.max(STUDY_CELL, run.cell);
}
