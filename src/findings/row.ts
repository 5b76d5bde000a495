/**
 * The row that a settled speed leaves behind: one number a column, SI unless the name says otherwise, crank angles in
 * degrees after top dead centre of the turn in which the exhaust opens (beyond 360 in the next turn). The list of
 * columns is the single source of `sweep.csv`, of the tables and of the documentation. A row is the same object as it is
 * made, as it comes back from a file, and as it is drawn.
 */

/** A number, or null where there is nothing to be read. Never NaN. */
export type Reading = number | null;

/** A number as a reading: what is not finite, such as a share of nothing, is absent. */
export const reading = (value: number | null): Reading =>
  value !== null && Number.isFinite(value) ? value : null;

export interface SweepRow {
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
  /** Mass, burnt and fresh, blown back from the cylinder into the transfers, over the delivered mass [-]. */
  readonly transfer_backflow_ratio: Reading;
  /** Rise of the strongest front that arrives while the transfers are open, the plug-back left out [bar], and where [deg]. */
  readonly transfer_compression_bar: Reading;
  readonly transfer_compression_deg: Reading;
  /** Depth of the suction below ambient [bar], and degrees for which it is at least half as deep [deg]. */
  readonly suction_depth_bar: Reading;
  readonly suction_length_deg: Reading;
  /** Crest of another wave beside the plug-back [deg], and how far it is counted as part of it [-]. */
  readonly other_wave_deg: Reading;
  readonly other_wave_counted: Reading;
  /** Flow-weighted gas temperature and wall temperature at the middle of header, belly and stinger [K]. */
  readonly header_gas_temperature_k: Reading;
  readonly belly_gas_temperature_k: Reading;
  readonly stinger_gas_temperature_k: Reading;
  readonly header_wall_temperature_k: Reading;
  readonly belly_wall_temperature_k: Reading;
  readonly stinger_wall_temperature_k: Reading;
  /** Mean pressure where the stinger begins, above ambient [bar]. */
  readonly stinger_back_pressure_bar: Reading;
  /** Lowest and highest pressure in the crankcase [bar]. */
  readonly crankcase_lowest_bar: Reading;
  readonly crankcase_highest_bar: Reading;
  /** Where the suction is half as deep again [deg]. */
  readonly suction_end_deg: Reading;
  /** When the front that spoils the suction left the port; before exhaust opening: in the cycle before [deg]. */
  readonly transfer_compression_left_deg: Reading;
  /** Burnt share of all gas that entered the cylinder through the transfers [-]. */
  readonly transfer_burnt_share: Reading;
}

export type ColumnName = keyof SweepRow;

/** Columns that hold numbers. */
export type NumberColumn = Exclude<ColumnName, 'settled'>;

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
  {
    name: 'transfer_compression_bar',
    says: 'Rise of the strongest front from transfer opening to closing, the plug-back left out.',
  },
  { name: 'transfer_compression_deg', says: 'Where it is.' },
  { name: 'suction_depth_bar', says: 'Depth of the suction below ambient.' },
  { name: 'suction_length_deg', says: 'Degrees for which it is at least half as deep.' },
  { name: 'other_wave_deg', says: 'Crest of another wave beside the plug-back.' },
  { name: 'other_wave_counted', says: 'How far it is counted as part of the plug-back, 0 to 1.' },
  {
    name: 'header_gas_temperature_k',
    says: 'Flow-weighted mean gas temperature at the middle of the header.',
  },
  { name: 'belly_gas_temperature_k', says: 'The same at the middle of the belly.' },
  { name: 'stinger_gas_temperature_k', says: 'The same at the middle of the stinger.' },
  { name: 'header_wall_temperature_k', says: 'Wall temperature at the middle of the header.' },
  { name: 'belly_wall_temperature_k', says: 'The same at the middle of the belly.' },
  { name: 'stinger_wall_temperature_k', says: 'The same at the middle of the stinger.' },
  {
    name: 'stinger_back_pressure_bar',
    says: 'Mean pressure where the stinger begins, above ambient.',
  },
  { name: 'crankcase_lowest_bar', says: 'Lowest pressure in the crankcase.' },
  { name: 'crankcase_highest_bar', says: 'Highest pressure in the crankcase.' },
  { name: 'suction_end_deg', says: 'Where the suction ends: from there on less than half as deep.' },
  {
    name: 'transfer_compression_left_deg',
    says: 'When the front that spoils the suction left the port; before exhaust opening: in the cycle before.',
  },
  {
    name: 'transfer_burnt_share',
    says: 'Burnt share of all gas that entered the cylinder through the transfers.',
  },
];

/** A row at an exhaust duration [deg]. */
export interface DurationPoint {
  readonly durationDeg: number;
  readonly row: SweepRow;
}
