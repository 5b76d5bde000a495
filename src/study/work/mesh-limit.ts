/**
 * How large a mesh may be. Time goes with the square of the number of cells and memory with the number: beyond what is
 * taken here, a hundred times the cells of an ordinary run, a study would not end, so it is refused before it starts.
 */

import type { Case } from '../../model/case.ts';
import { cellsOf, MOST_CELLS } from '../../pipe/cells.ts';
import { meshedLengths } from '../../pipe/exhaust.ts';

/** Why a case's mesh is refused, in words; null: it is not. */
export function meshProblem(subject: Pick<Case, 'engine' | 'pipe' | 'run'>): string | null {
  const cells = cellsOf(meshedLengths(subject), subject.run.cell);
  if (cells <= MOST_CELLS) return null;
  return (
    `The mesh would have ${cells} cells; at most ${MOST_CELLS} are taken. Ask for longer cells, by ` +
    'run.cell in the case or by --cell.'
  );
}

/** @throws Error with the exit code of a wrong case */
export function refuseHugeMesh(subject: Pick<Case, 'engine' | 'pipe' | 'run'>): void {
  const problem = meshProblem(subject);
  if (problem !== null) throw Object.assign(new Error(problem), { exitCode: 3 });
}
