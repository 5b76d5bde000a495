/**
 * Cycles that differ from one another about a mean that holds: a row is then the mean of its last cycles, and says how
 * far they differ, from the least to the most. Below these limits nothing that is read off a page would change.
 * Common practice, no source.
 */

import type { SweepRow } from '../../src/findings/row.ts';

/** Torque [%] and peak of the plug-back [deg]. */
export const swingLimits = { torquePercent: 2, plugbackDeg: 3 };

const over = (value: number | null | undefined, limit: number): boolean =>
  typeof value === 'number' && value > limit;

/** The cycles of this speed differ by more than can be left unsaid. */
export const swings = (row: SweepRow): boolean =>
  over(row.spread_torque_percent, swingLimits.torquePercent) ||
  over(row.spread_plugback_deg, swingLimits.plugbackDeg);

/** Half of the difference between cycles where they differ, else none: bars of a figure. */
export const swingBars = (
  rows: readonly SweepRow[],
  halfOf: (row: SweepRow) => number | null,
  color: string,
): object => ({
  type: 'data',
  array: rows.map((row) => (swings(row) ? Math.abs(halfOf(row) ?? 0) : 0)),
  color,
  thickness: 1.4,
  width: 3,
  visible: rows.some(swings),
});
