/** Which speeds did not settle: whoever shows rows must not pass over them. */

import type { SweepRow } from './row.ts';

/** Speeds at which the cycles did not settle: their rows are means of the last cycles [rpm]. */
export const unsettledSpeeds = (rows: readonly SweepRow[]): readonly number[] =>
  rows.filter((row) => !row.settled).map((row) => row.speed_rpm);

/** Every row asked for was finished and settled. */
export const isWhole = (rows: readonly SweepRow[], failures: readonly unknown[]): boolean =>
  failures.length === 0 && rows.every((row) => row.settled);

/**
 * Whether a study of many runs came to nothing: one of its drafts has no settled row. A row that failed or did not settle
 * beside others that did is marked, and the study stands.
 */
export const isFailedStudy = (drafts: readonly (readonly SweepRow[])[]): boolean =>
  drafts.some((rows) => !rows.some((row) => row.settled));
