/**
 * What marching costs, counted and not timed, so that what is run depends on neither clock nor threads. A cycle on cells of a
 * length Δx costs 1 + (18 mm/Δx)²: the part of a step that goes with neither cells nor steps, and that which goes with both. A
 * speed costs some six more at any length (its network is built, its waves are read), and a start on coarse cells its cycles
 * there. The unit is about 4 ms of the processor that DEVELOPERS.md names, two-lane kernel; measured on cells
 * of 5, 10 and 20 mm the ratios are 14, 4.4 and 1.6 to one.
 */

import { coarseCell } from '../../engine/run/run-speed.ts';
import type { SweepRow } from '../../findings/row.ts';

/** Cells of which the two parts cost the same [m]. */
const EVEN = 18e-3;
/** Cost of a speed beside its cycles [units]. */
const READING = 6;
/** Cycles of a start on coarse cells: cold, as a rule from a neighbour's fields there, and from fields at hand. */
const START_CYCLES = { cold: 14, chained: 9, warm: 0 } as const;

/** Work of one cycle on cells of a length [m]. */
export const cycleWork = (cell: number): number => 1 + (EVEN / cell) ** 2;

/** Work of a speed of so many cycles. */
export const speedWork = (cell: number, cycles: number, start: keyof typeof START_CYCLES): number =>
  READING + cycles * cycleWork(cell) + START_CYCLES[start] * cycleWork(coarseCell(cell));

/** Work of a sweep, by the cycles that its rows took and the speeds whose start was cold. */
export function sweepWork(
  rows: readonly SweepRow[],
  cell: number,
  isCold: (speed: number) => boolean,
): number {
  return rows.reduce(
    (sum, { speed_rpm, cycles }) => sum + speedWork(cell, cycles, isCold(speed_rpm) ? 'cold' : 'chained'),
    0,
  );
}
