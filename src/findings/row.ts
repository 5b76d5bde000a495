/**
 * The row that a settled speed leaves behind: one number a column, SI unless the name says otherwise, crank angles in
 * degrees after top dead centre of the turn in which the exhaust opens (beyond 360 in the next turn). The list of
 * columns is the single source of `sweep.csv`, of the tables and of the documentation.
 */

export interface SweepRow {
  readonly speed_rpm: number;
  readonly settled: boolean;
  readonly cycles: number;
  readonly exhaust_opens_deg: number;
  readonly transfers_open_deg: number;
  readonly transfers_close_deg: number;
  readonly exhaust_closes_deg: number;
  readonly suction_bar: number;
  readonly suction_deg: number;
  readonly port_mean_during_transfer_bar: number;
  readonly plugback_onset_deg: number;
  readonly plugback_peak_deg: number;
  readonly plugback_centroid_deg: number;
  readonly plugback_end_deg: number;
  readonly plugback_peak_bar: number;
  readonly plugback_lead_deg: number;
  readonly plugback_share_before_closing: number;
  readonly packed_mass_ratio: number;
  readonly echo_return_deg: number;
  readonly echo_gain: number;
  readonly transfer_opening_cylinder_bar: number;
  readonly transfer_opening_crankcase_bar: number;
  readonly passage_exit_mach_max: number;
  readonly delivery_ratio: number;
  readonly scavenging_efficiency: number;
  readonly trapping_efficiency: number;
  readonly charging_efficiency: number;
  readonly imep_bar: number;
  readonly bmep_bar: number;
  readonly torque_nm: number;
  readonly power_kw: number;
  readonly exhaust_gas_temperature_k: number;
  readonly pipe_mean_temperature_k: number;
  readonly traced_return_baffle_start_deg: number;
  readonly traced_return_baffle_middle_deg: number;
  readonly traced_return_baffle_end_deg: number;
  readonly handbook_return_deg: number;
  readonly mass_balance_error: number;
  readonly energy_balance_error: number;
  readonly spread_torque_percent: number;
  readonly spread_plugback_deg: number;
  /** Fresh charge blown back from the cylinder into the transfers after they open, over the delivered mass [-]. */
  readonly transfer_backflow_ratio: number;
}

export type ColumnName = keyof SweepRow;
