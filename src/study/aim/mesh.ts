/**
 * Every pipe of a search on the same number of cells: their length follows the pipe's, so that a result varies smoothly
 * with a length. With cells of a fixed length the number would jump, and the result with it.
 */

import type { Case } from '../../model/case.ts';
import type { Pipe } from '../../model/pipe.ts';
import { exhaustSections } from '../../pipe/exhaust.ts';
import { endCorrectionOf, lengthOf } from '../../pipe/places.ts';

/** Cycles after which a pipe of the search is judged by its last ones, settled or not. */
const SEARCH_CYCLES = 30;

/** Length of the exhaust with its end correction [m]. */
function meshedLength(subject: Pick<Case, 'engine' | 'pipe'>): number {
  return lengthOf(exhaustSections(subject), endCorrectionOf(subject.pipe));
}

/** How many cells of about a length [m] the exhaust of a case takes. */
export function cellCount(subject: Case, cell: number): number {
  return Math.max(20, Math.round(meshedLength(subject) / cell));
}

export interface Meshed {
  readonly cells: number;
  readonly speeds: readonly number[];
  /** Give up settling early: most pipes of a search are far from the best. */
  readonly quick: boolean;
}

/** A case with another pipe on a mesh of so many cells. */
export function meshed(subject: Case, pipe: Pipe, { cells, speeds, quick }: Meshed): Case {
  const run = { ...subject.run, speeds, cell: meshedLength({ engine: subject.engine, pipe }) / cells };
  const maxCycles = quick ? Math.min(run.maxCycles, SEARCH_CYCLES) : run.maxCycles;
  return { ...subject, pipe, run: { ...run, maxCycles }, inputs: [], assumed: [], warnings: [] };
}
