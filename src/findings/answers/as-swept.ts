/**
 * A row computed on other cells than a sweep's, told as the sweep would have it: torque in the ratio, and the middle of the wave
 * by the difference, that the two meshes show at a speed where both are known. Both hang on where in its band an engine
 * stands, so the speed is to be one at which it stands alike.
 */

import type { Reading, SweepRow } from '../row.ts';

/** One speed of the pipe as it is: its row of the sweep, and on the other cells. */
export interface AsSwept {
  readonly known: SweepRow;
  readonly here: SweepRow;
}

/** A ratio further from 1 is no matter of meshes: the two stand in different states, and nothing is learnt from them [-]. */
const MOST_RATIO = 0.06;
/** Likewise of a middle [deg]. */
const MOST_SHIFT = 4;

export function asSwept(row: SweepRow, { known, here }: AsSwept): SweepRow {
  const ratio = (known.torque_nm ?? Number.NaN) / (here.torque_nm ?? Number.NaN);
  const isRatio = Math.abs(ratio - 1) <= MOST_RATIO;
  const by = (known.plugback_centroid_deg ?? Number.NaN) - (here.plugback_centroid_deg ?? Number.NaN);
  const isShift = Math.abs(by) <= MOST_SHIFT;
  const scaled = (value: Reading): Reading => (value === null || !isRatio ? value : value * ratio);
  const middle = row.plugback_centroid_deg;
  return {
    ...row,
    torque_nm: scaled(row.torque_nm),
    power_kw: scaled(row.power_kw),
    plugback_centroid_deg: middle === null || !isShift ? middle : middle + by,
  };
}
