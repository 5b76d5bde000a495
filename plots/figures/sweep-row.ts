/** The columns of a sweep that pages draw, as they stand in the sweep's file; an absent reading is null. */

import type { PortEvents } from '../theme/events.ts';

type Reading = number | null;

export interface SpeedRow {
  readonly speed_rpm: number;
  readonly settled: boolean;
  readonly cycles: number;
  readonly exhaust_opens_deg: number;
  readonly transfers_open_deg: number;
  readonly transfers_close_deg: number;
  readonly exhaust_closes_deg: number;
  readonly suction_bar: Reading;
  readonly suction_deg: Reading;
  readonly port_mean_during_transfer_bar: Reading;
  readonly plugback_onset_deg: Reading;
  readonly plugback_peak_deg: Reading;
  readonly plugback_centroid_deg: Reading;
  readonly plugback_end_deg: Reading;
  readonly plugback_peak_bar: Reading;
  readonly plugback_lead_deg: Reading;
  readonly plugback_share_before_closing: Reading;
  readonly packed_mass_ratio: Reading;
  readonly echo_return_deg: Reading;
  readonly echo_gain: Reading;
  readonly transfer_opening_cylinder_bar: Reading;
  readonly transfer_opening_crankcase_bar: Reading;
  readonly passage_exit_mach_max: Reading;
  readonly delivery_ratio: Reading;
  readonly scavenging_efficiency: Reading;
  readonly trapping_efficiency: Reading;
  readonly charging_efficiency: Reading;
  readonly imep_bar: Reading;
  readonly bmep_bar: Reading;
  readonly torque_nm: Reading;
  readonly power_kw: Reading;
  readonly exhaust_gas_temperature_k: Reading;
  readonly pipe_mean_temperature_k: Reading;
  readonly traced_return_baffle_start_deg: Reading;
  readonly traced_return_baffle_middle_deg: Reading;
  readonly traced_return_baffle_end_deg: Reading;
  readonly handbook_return_deg: Reading;
  readonly mass_balance_error: Reading;
  readonly energy_balance_error: Reading;
  readonly spread_torque_percent: Reading;
  readonly spread_plugback_deg: Reading;
  readonly transfer_backflow_ratio?: Reading;
}

export type Column = keyof SpeedRow;

export const eventsOf = (row: SpeedRow): PortEvents => ({
  exhaustOpens: row.exhaust_opens_deg,
  transfersOpen: row.transfers_open_deg,
  transfersClose: row.transfers_close_deg,
  exhaustCloses: row.exhaust_closes_deg,
});

/** A numeric column over the rows, null where absent or not finite. */
export const column = (rows: readonly SpeedRow[], name: Column): (number | null)[] =>
  rows.map((row) => {
    const value = row[name];
    return typeof value === 'number' && Number.isFinite(value) ? value : null;
  });

/** The row in which a column is highest, or null. */
export function highest(rows: readonly SpeedRow[], name: Column): SpeedRow | null {
  let best: SpeedRow | null = null;
  let bestValue = Number.NEGATIVE_INFINITY;
  for (const row of rows) {
    const value = row[name];
    if (typeof value === 'number' && value > bestValue) {
      best = row;
      bestValue = value;
    }
  }
  return best;
}

/** The row computed nearest to a speed. */
export const nearest = (rows: readonly SpeedRow[], about: number): SpeedRow | undefined =>
  rows.reduce<SpeedRow | undefined>(
    (best, row) =>
      best === undefined || Math.abs(row.speed_rpm - about) < Math.abs(best.speed_rpm - about) ? row : best,
    undefined,
  );

/** The row with gaps where a reading is not a finite number, as it would come back from a file. */
export const withGaps = (row: SpeedRow): SpeedRow =>
  Object.fromEntries(
    Object.entries(row).map(([name, value]) => [
      name,
      typeof value === 'number' && !Number.isFinite(value) ? null : value,
    ]),
  ) as unknown as SpeedRow;

/** Where the computed speeds begin and end, and the widest step between them [rpm]. */
export interface Computed {
  readonly first: number;
  readonly last: number;
  readonly step: number;
}

export function computedSpeeds(rows: readonly SpeedRow[]): Computed {
  const speeds = rows.map((row) => row.speed_rpm);
  return {
    first: speeds[0] ?? 0,
    last: speeds.at(-1) ?? 0,
    step: Math.max(0, ...speeds.slice(1).map((at, i) => at - (speeds[i] ?? 0))),
  };
}
