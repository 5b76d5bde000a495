/**
 * What marching costs, counted and not timed, so that what is run depends on neither clock nor threads. A cycle on cells of a
 * length Δx costs 1 + (18 mm/Δx)²: the part of a step that goes with neither cells nor steps, and that which goes with both. A
 * speed costs some six more at any length (its network is built, its waves are read), and a cold start its cycles on
 * cells twice as long. The unit is about 4 ms of the processor that DEVELOPERS.md names, two-lane kernel; measured on cells
 * of 5, 10 and 20 mm the ratios are 14, 4.4 and 1.6 to one.
 */

import type { SweepRow } from '../../findings/row.ts';

/** Cells of which the two parts cost the same [m]. */
const EVEN = 18e-3;
/** Cost of a speed beside its cycles [units]. */
const READING = 6;
/** Cycles of a cold start on cells twice as long. */
const COLD_CYCLES = 14;

/** Work of one cycle on cells of a length [m]. */
export const cycleWork = (cell: number): number => 1 + (EVEN / cell) ** 2;

/** Work of a speed of so many cycles, from a cold start or from a neighbour's fields. */
export const speedWork = (cell: number, cycles: number, start: 'cold' | 'warm'): number =>
  READING + cycles * cycleWork(cell) + (start === 'cold' ? COLD_CYCLES * cycleWork(2 * cell) : 0);

/** Work of a sweep, by the cycles that its rows took and the speeds that started cold. */
export function sweepWork(
  rows: readonly SweepRow[],
  cell: number,
  isCold: (speed: number) => boolean,
): number {
  return rows.reduce(
    (sum, { speed_rpm, cycles }) => sum + speedWork(cell, cycles, isCold(speed_rpm) ? 'cold' : 'warm'),
    0,
  );
}
