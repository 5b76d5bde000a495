/**
 * Where the plug-back lands. It is wanted between transfer closing (TC) and exhaust closing (EC): earlier it works
 * against the transfer streams, later it meets a shut port. It is judged by its middle, the centroid of its impulse: a
 * broad wave has a flat top, whose peak jumps from crest to crest where the wave itself does not. A speed counts as
 * useful if the middle lies in that window and the main share of the impulse arrives before the port shuts.
 */

import type { SpeedRow } from './sweep-row.ts';

export type Landing = 'early' | 'lands' | 'late' | 'none';

/** Share of the impulse that must land before exhaust closing [-]. Common practice, no source. */
export const mainShare = 0.5;

export function landing(row: SpeedRow): Landing {
  const middle = row.plugback_centroid_deg;
  if (middle === null || !Number.isFinite(middle)) return 'none';
  if (middle < row.transfers_close_deg) return 'early';
  const share = row.plugback_share_before_closing;
  return middle <= row.exhaust_closes_deg && share !== null && share >= mainShare ? 'lands' : 'late';
}

/** How long before exhaust closing the middle of the plug-back lands, negative after it [deg]. */
export const middleLead = (row: SpeedRow): number | null =>
  row.plugback_centroid_deg === null ? null : row.exhaust_closes_deg - row.plugback_centroid_deg;

/** How long after transfer closing it lands, negative before it [deg]. */
export const middleAfterTransfers = (row: SpeedRow): number | null =>
  row.plugback_centroid_deg === null ? null : row.plugback_centroid_deg - row.transfers_close_deg;

/** Its place in the window: 0 at transfer closing, 1 at exhaust closing [-]. */
export const placeInWindow = (row: SpeedRow): number | null => {
  const after = middleAfterTransfers(row);
  return after === null ? null : after / (row.exhaust_closes_deg - row.transfers_close_deg);
};

export interface SpeedBand {
  readonly from: number;
  readonly to: number;
}

/** Runs of neighbouring computed speeds at which the wave lands as wanted, the widest first. */
export function usefulBands(rows: readonly SpeedRow[]): readonly SpeedBand[] {
  const bands: SpeedBand[] = [];
  let open: { from: number; to: number } | null = null;
  for (const row of rows) {
    if (landing(row) !== 'lands') {
      open = null;
      continue;
    }
    if (open === null) {
      open = { from: row.speed_rpm, to: row.speed_rpm };
      bands.push(open);
    } else open.to = row.speed_rpm;
  }
  return bands.sort((a, b) => b.to - b.from - (a.to - a.from));
}
