/** A sweep in words and a table, for the terminal. */

import { sweepText as answerWords } from '../../../plots/pages/sweep-words.ts';
import type { SweepResult } from '../../engine/read/result.ts';
import type { AdviceReport } from '../../findings/answers/advice.ts';
import type { BandsAnswer } from '../../findings/answers/bands.ts';
import { sweepAnswer } from '../../findings/answers/sweep.ts';
import { lands, middleLead } from '../../findings/landing.ts';
import type { SweepRow } from '../../findings/row.ts';
import { folded } from '../frame/folded.ts';
import { plainText } from '../frame/plain-text.ts';
import { type Column, tableText } from '../frame/table.ts';

/** What was asked for beside the sweep; null: it was not. */
export interface SweepExtras {
  readonly advice: AdviceReport | null;
  readonly sure: BandsAnswer | null;
}

export function sweepText(result: SweepResult, extras: SweepExtras, colour: boolean): string {
  const { rows, failures } = result;
  const lines = [`${plainText(result.case.name)}\n`];
  const first = rows[0];
  if (first !== undefined) {
    lines.push(
      `${answerText(result, extras)}\n`,
      `The plug-back in degrees after top dead centre; transfers close (TC) at ${angle(first.transfers_close_deg)},\n` +
        `exhaust (EC) at ${angle(first.exhaust_closes_deg)}. Lead: EC less the middle. > the middle lands from TC to EC.\n\n`,
      tableText(columns, rows, { marked: lands, colour }),
    );
  }
  for (const { speedRpm, reason } of failures) lines.push(`${speedRpm} rpm failed: ${plainText(reason)}\n`);
  return lines.join('');
}

/** The page's answer, in letters that any terminal has. */
function answerText({ rows, case: { run } }: SweepResult, { advice, sure }: SweepExtras): string {
  const { headline, lines } = answerWords(sweepAnswer(rows, run.targetSpeed), advice, sure);
  // A speed stands in one piece, as it is typed.
  const plain = (text: string): string =>
    plainText(text)
      .replace(/(\d)\u202f(?=\d{3}(?!\d))/g, '$1')
      .replace(/(\d)°/g, '$1\u202fdeg')
      .replace(/−/g, '-')
      .replace(/±/g, '+-');
  // Blanks within a number or before its unit become plain ones after the lines are broken, not before.
  return [headline, ...lines.map(({ label, text }) => `${label}: ${text}`)]
    .map((line) => `${folded(plain(line)).replace(/[\u2009\u202f\u00a0]/g, ' ')}\n`)
    .join('');
}

const angle = (value: number | null): string => value?.toFixed(0).replace(/^-0$/, '0') ?? '-';
const percent = (share: number | null): string => angle(share === null ? null : 100 * share);

const celsius = (kelvin: number | null): string => angle(kelvin === null ? null : kelvin - 273.15);

const columns: readonly Column<SweepRow>[] = [
  { header: 'Speed', unit: 'rpm', text: (r) => r.speed_rpm.toFixed(0) },
  { header: 'onset', unit: 'deg', text: (r) => angle(r.plugback_onset_deg) },
  { header: 'peak', unit: 'deg', text: (r) => angle(r.plugback_peak_deg) },
  { header: 'middle', unit: 'deg', text: (r) => angle(r.plugback_centroid_deg) },
  { header: 'end', unit: 'deg', optional: true, text: (r) => angle(r.plugback_end_deg) },
  { header: 'lead', unit: 'deg', text: (r) => angle(middleLead(r)) },
  { header: 'by EC', unit: '%', text: (r) => percent(r.plugback_share_before_closing) },
  { header: 'packed', unit: '%', text: (r) => percent(r.packed_mass_ratio) },
  { header: 'torque', unit: 'Nm', text: (r) => r.torque_nm?.toFixed(1) ?? '-' },
  { header: 'power', unit: 'kW', text: (r) => r.power_kw?.toFixed(1) ?? '-' },
  {
    header: 'flange',
    unit: 'degC',
    optional: true,
    text: (r) => celsius(r.exhaust_gas_temperature_k),
  },
  { header: '', align: 'left', text: (r) => (r.settled ? '' : 'not settled') },
];
