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
  /** Mass, burnt and fresh, blown back from the cylinder into the transfers, over the delivered mass [-]. */
  readonly transfer_backflow_ratio: number;
}

export type ColumnName = keyof SweepRow;

/** The columns in their order, and what each says. */
export const COLUMNS: readonly { readonly name: ColumnName; readonly says: string }[] = [
  { name: 'speed_rpm', says: 'Crankshaft speed.' },
  { name: 'settled', says: 'The cycles settled within the limits.' },
  { name: 'cycles', says: 'Cycles run on the wanted mesh.' },
  { name: 'exhaust_opens_deg', says: 'Exhaust opening, a chamfer included.' },
  { name: 'transfers_open_deg', says: 'First transfer opening.' },
  { name: 'transfers_close_deg', says: 'Last transfer closing.' },
  { name: 'exhaust_closes_deg', says: 'Exhaust closing.' },
  { name: 'suction_bar', says: 'Lowest pressure of the returning wave before the plug-back.' },
  { name: 'suction_deg', says: 'Where it is.' },
  {
    name: 'port_mean_during_transfer_bar',
    says: 'Mean pressure at the port face while the transfers are open.',
  },
  { name: 'plugback_onset_deg', says: 'The returning wave rises through ambient pressure.' },
  { name: 'plugback_peak_deg', says: 'Its peak.' },
  { name: 'plugback_centroid_deg', says: 'Centroid of its impulse above ambient.' },
  { name: 'plugback_end_deg', says: 'It falls through ambient pressure.' },
  { name: 'plugback_peak_bar', says: 'Pressure of its peak.' },
  { name: 'plugback_lead_deg', says: 'Exhaust closing less peak.' },
  { name: 'plugback_share_before_closing', says: 'Share of its impulse before exhaust closing.' },
  {
    name: 'packed_mass_ratio',
    says: 'Mass pushed back into the cylinder from transfer to exhaust closing, over the trapped mass.',
  },
  { name: 'echo_return_deg', says: 'Second return of the share that lands on the closed port.' },
  {
    name: 'echo_gain',
    says: 'Settled outgoing pulse over that of a first cycle into a quiet pipe, above ambient.',
  },
  { name: 'transfer_opening_cylinder_bar', says: 'Cylinder pressure at transfer opening.' },
  { name: 'transfer_opening_crankcase_bar', says: 'Crankcase pressure at transfer opening.' },
  { name: 'passage_exit_mach_max', says: 'Largest Mach number at the exit of the exhaust passage.' },
  { name: 'delivery_ratio', says: 'Fresh mass delivered over the displacement filled at ambient state.' },
  { name: 'scavenging_efficiency', says: 'Fresh share of the trapped charge.' },
  { name: 'trapping_efficiency', says: 'Fresh mass retained over delivered.' },
  { name: 'charging_efficiency', says: 'Fresh mass retained over the displacement filled at ambient state.' },
  { name: 'imep_bar', says: 'Indicated mean effective pressure of the cylinder.' },
  { name: 'bmep_bar', says: 'Brake mean effective pressure.' },
  { name: 'torque_nm', says: 'Torque.' },
  { name: 'power_kw', says: 'Power.' },
  { name: 'exhaust_gas_temperature_k', says: 'Flow-weighted mean gas temperature at the flange.' },
  { name: 'pipe_mean_temperature_k', says: 'Mean gas temperature over the pipe and the cycle.' },
  {
    name: 'traced_return_baffle_start_deg',
    says: 'Return of the wave traced from exhaust opening to the start of the baffle.',
  },
  { name: 'traced_return_baffle_middle_deg', says: 'The same for its middle.' },
  { name: 'traced_return_baffle_end_deg', says: 'The same for its end.' },
  {
    name: 'handbook_return_deg',
    says: 'Return by the handbook rule, one sound speed and the length to the end of the baffle (Blair 1996).',
  },
  { name: 'mass_balance_error', says: 'Error of the mass ledger of a cycle over the trapped mass.' },
  { name: 'energy_balance_error', says: 'Error of the energy ledger of a cycle over the heat released.' },
  { name: 'spread_torque_percent', says: 'Spread of torque over the cycles judged.' },
  { name: 'spread_plugback_deg', says: 'Spread of the plug-back peak over the cycles judged.' },
  {
    name: 'transfer_backflow_ratio',
    says: 'Mass blown back from the cylinder into the transfers over the delivered mass.',
  },
];
