/**
 * Where the plug-back lands. It is wanted between transfer closing (TC) and exhaust closing (EC): earlier it works
 * against the transfer streams, later it meets a shut port. A speed counts as useful if the peak lies in that window
 * and the main share of the wave's impulse arrives before the port shuts.
 */

import type { SpeedRow } from './sweep-row.ts';

export type Landing = 'early' | 'lands' | 'tail late' | 'late' | 'none';

/** Share of the impulse that must land before exhaust closing [-]. Common practice, no source. */
export const mainShare = 0.5;

export function landing(row: SpeedRow): Landing {
  const peak = row.plugback_peak_deg;
  if (peak === null || !Number.isFinite(peak)) return 'none';
  if (peak < row.transfers_close_deg) return 'early';
  if (peak > row.exhaust_closes_deg) return 'late';
  const share = row.plugback_share_before_closing;
  return share !== null && share >= mainShare ? 'lands' : 'tail late';
}

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
