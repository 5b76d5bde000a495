/** Which speeds did not settle: whoever shows rows must not pass over them. */

import type { SweepRow } from './row.ts';

/** Speeds at which the cycles did not settle: their rows are means of the last cycles [rpm]. */
export const unsettledSpeeds = (rows: readonly SweepRow[]): readonly number[] =>
  rows.filter((row) => !row.settled).map((row) => row.speed_rpm);

/** Every row asked for was finished and settled. */
export const isWhole = (rows: readonly SweepRow[], failures: readonly unknown[]): boolean =>
  failures.length === 0 && rows.every((row) => row.settled);
