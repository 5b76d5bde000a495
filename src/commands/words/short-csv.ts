/**
 * The sweep for a spreadsheet: what a builder looks at, rounded as far as the model can claim it, each heading with its
 * unit, temperatures in degrees Celsius. All columns to full length are in `sweep.csv`.
 */

import { landing, middleLead } from '../../findings/landing.ts';
import type { SweepRow } from '../../findings/row.ts';
import { type CsvValue, csvLine } from '../frame/csv.ts';

interface ShortColumn {
  readonly heading: string;
  readonly decimals: number;
  readonly of: (row: SweepRow) => number | null;
}

const celsius = (kelvin: number | null): number | null => (kelvin === null ? null : kelvin - 273.15);
const percent = (share: number | null): number | null => (share === null ? null : 100 * share);

const READINGS: readonly ShortColumn[] = [
  { heading: 'speed [rpm]', decimals: 0, of: (row) => row.speed_rpm },
  { heading: 'torque [Nm]', decimals: 1, of: (row) => row.torque_nm },
  { heading: 'power [kW]', decimals: 1, of: (row) => row.power_kw },
  { heading: 'plug-back onset [deg]', decimals: 0, of: (row) => row.plugback_onset_deg },
  { heading: 'plug-back peak [deg]', decimals: 0, of: (row) => row.plugback_peak_deg },
  { heading: 'plug-back middle [deg]', decimals: 0, of: (row) => row.plugback_centroid_deg },
  { heading: 'plug-back end [deg]', decimals: 0, of: (row) => row.plugback_end_deg },
  { heading: 'lead of the middle [deg]', decimals: 0, of: middleLead },
  { heading: 'plug-back pressure [bar]', decimals: 2, of: (row) => row.plugback_peak_bar },
  { heading: 'by exhaust closing [%]', decimals: 0, of: (row) => percent(row.plugback_share_before_closing) },
  { heading: 'packed [%]', decimals: 0, of: (row) => percent(row.packed_mass_ratio) },
  { heading: 'lowest suction [bar]', decimals: 2, of: (row) => row.suction_bar },
  { heading: 'delivery ratio [%]', decimals: 0, of: (row) => percent(row.delivery_ratio) },
  { heading: 'trapping [%]', decimals: 0, of: (row) => percent(row.trapping_efficiency) },
  { heading: 'scavenging [%]', decimals: 0, of: (row) => percent(row.scavenging_efficiency) },
  { heading: 'brake mean pressure [bar]', decimals: 1, of: (row) => row.bmep_bar },
  { heading: 'gas at the flange [degC]', decimals: 0, of: (row) => celsius(row.exhaust_gas_temperature_k) },
  { heading: 'gas in the pipe [degC]', decimals: 0, of: (row) => celsius(row.pipe_mean_temperature_k) },
  {
    heading: 'before the stinger, above ambient [bar]',
    decimals: 2,
    of: (row) => row.stinger_back_pressure_bar,
  },
  { heading: 'crankcase, lowest [bar]', decimals: 2, of: (row) => row.crankcase_lowest_bar },
  { heading: 'crankcase, highest [bar]', decimals: 2, of: (row) => row.crankcase_highest_bar },
];

/** Temperatures along the pipe, as a builder can measure them. */
const MEASURABLE: readonly ShortColumn[] = (['header', 'belly', 'stinger'] as const).flatMap((part) => [
  { heading: `gas, ${part} [degC]`, decimals: 0, of: (row) => celsius(row[`${part}_gas_temperature_k`]) },
  { heading: `wall, ${part} [degC]`, decimals: 0, of: (row) => celsius(row[`${part}_wall_temperature_k`]) },
]);

const rounded = (value: number | null, decimals: number): CsvValue =>
  value === null ? null : Number(value.toFixed(decimals)) + 0;

/** The whole file. */
export function shortCsv(rows: readonly SweepRow[]): string {
  const columns = [...READINGS, ...MEASURABLE];
  const headings = [...columns.map(({ heading }) => heading), 'wave', 'settled'];
  const lines = rows.map((row) => [
    ...columns.map(({ of, decimals }) => rounded(of(row), decimals)),
    landing(row),
    row.settled ? 'yes' : 'no',
  ]);
  return [headings, ...lines].map(csvLine).join('');
}
