/**
 * Where the plug-back lands. It is wanted between transfer closing (TC) and exhaust closing (EC): earlier it works
 * against the transfer streams, later it meets a shut port. It is judged by its middle, the centroid of its impulse: a
 * broad wave has a flat top, whose peak jumps from crest to crest where the wave itself does not.
 *
 * It lands if the middle lies in that window and the main share of the impulse arrives before the port shuts. Both are
 * asked for: a wave that leans has its middle before EC and most of its impulse after it. How far the middle is outside
 * the window is another question, a distance in degrees, and has a name of its own.
 */

import type { SweepRow } from './row.ts';

export type Landing = 'early' | 'lands' | 'late' | 'none';

/** Share of the impulse that must land before exhaust closing [-]. Common practice, no source. */
export const MAIN_SHARE = 0.5;

export function landing(row: SweepRow): Landing {
  const middle = row.plugback_centroid_deg;
  if (middle === null) return 'none';
  if (middle < row.transfers_close_deg) return 'early';
  const share = row.plugback_share_before_closing;
  return middle <= row.exhaust_closes_deg && share !== null && share >= MAIN_SHARE ? 'lands' : 'late';
}

export const lands = (row: SweepRow): boolean => landing(row) === 'lands';

/** How long before exhaust closing the middle of the plug-back comes, negative after it [deg]. */
export const middleLead = (row: SweepRow): number | null =>
  row.plugback_centroid_deg === null ? null : row.exhaust_closes_deg - row.plugback_centroid_deg;

/** How long after transfer closing it comes, negative before it [deg]. */
export const middleAfterTransfers = (row: SweepRow): number | null =>
  row.plugback_centroid_deg === null ? null : row.plugback_centroid_deg - row.transfers_close_deg;

/** Its place in the window: 0 at transfer closing, 1 at exhaust closing [-]. */
export const placeInWindow = (row: SweepRow): number | null => {
  const after = middleAfterTransfers(row);
  return after === null ? null : after / (row.exhaust_closes_deg - row.transfers_close_deg);
};

/** How far the middle is outside the window, 0 inside [deg]. */
export function outsideWindow(row: SweepRow): number | null {
  const lead = middleLead(row);
  const window = row.exhaust_closes_deg - row.transfers_close_deg;
  return lead === null ? null : Math.max(0, -lead, lead - window);
}
