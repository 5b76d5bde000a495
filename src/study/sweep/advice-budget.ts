/**
 * What advice may cost: a third of its sweep, counted by cycles and cells. What is tried is planned before anything is run,
 * by what such trials take as a rule: first the target, then the band moved lower and higher, then power. What is left over goes to
 * more changes in the screens. Each trial gives up its edges where its share is used up.
 */

import type { SweepResult } from '../../engine/read/result.ts';
import { speedWork, sweepWork } from '../work/march-work.ts';
import { coldSpeeds } from '../work/run-sweep.ts';

/** Share of the sweep's work. */
const SHARE = 1 / 3;
/** Cells of the screens and of edges, and of the torque that is promised; never finer than the sweep's own [m]. */
const COARSE_CELL = 20e-3;
const FINE_CELL = 10e-3;
/** Cycles that a change takes as a rule, from settled fields of what it changes, and on fine cells from its own on coarse ones. */
const CYCLES = 10;
const FINE_CYCLES = 6;
/** Speeds run for the edges of a landing, as a rule, and their cycles: those beyond the band settle slowly. */
const EDGE_SPEEDS = 6;
const EDGE_CYCLES = 13;
/** Fewest changes that make a screen. */
const LEAST_SCREEN = 2;

export interface Cells {
  readonly coarse: number;
  readonly fine: number;
}

export const cellsFor = (cell: number): Cells => ({
  coarse: Math.max(COARSE_CELL, cell),
  fine: Math.max(FINE_CELL, cell),
});

/** What a sweep's advice may spend. */
export const allowance = ({ rows, case: { run } }: SweepResult): number => {
  const cold = coldSpeeds(run.speeds);
  return SHARE * sweepWork(rows, run.cell, (speed) => cold.has(speed));
};

/** What a trial would like: so many changes, which it can do with fewer of unless it is one alone. */
export interface Wanted {
  readonly changes: number;
}

export interface Granted {
  /** Changes that it may try; 0: it is not run. */
  readonly changes: number;
  /** What its screen and its edges may cost. */
  readonly screenWork: number;
  readonly edgeWork: number;
}

/** Shares what may be spent among trials, the first first. */
export function granted(
  wanted: readonly Wanted[],
  work: number,
  { coarse, fine }: Cells,
): readonly Granted[] {
  const warm = speedWork(coarse, CYCLES, 'warm');
  const again = fine === coarse ? 0 : speedWork(fine, FINE_CYCLES, 'warm');
  const edgeWork = EDGE_SPEEDS * speedWork(coarse, EDGE_CYCLES, 'warm');
  // First the pipe as it is, once for all: at a speed inside its band, and at its edge.
  let left = work - speedWork(coarse, CYCLES, 'cold') - again - warm;
  const grants = wanted.map(({ changes }) => {
    const least = Math.min(changes, LEAST_SCREEN);
    // Where there is a screen the pipe as it is stands beside it.
    const cost = (least + (changes > 1 ? 1 : 0)) * warm + again + edgeWork;
    if (changes === 0 || cost > left) return { changes: 0, screenWork: 0, edgeWork };
    left -= cost;
    return { changes: least, screenWork: least * warm, edgeWork };
  });
  return grants.map((grant, k) => {
    if (grant.changes === 0) return grant;
    const more = Math.min((wanted[k]?.changes ?? 0) - grant.changes, Math.floor(left / warm));
    left -= more * warm;
    const changes = grant.changes + more;
    return { ...grant, changes, screenWork: changes * warm };
  });
}
