/** `echocone sweep`: the running engine over a range of speeds; a table, a document and a page. */

import { sweepPage } from '../../plots/pages/sweep-page.ts';
import { describeInputs, loadCase } from '../case/load.ts';
import type { Case } from '../case/model.ts';
import { COLUMNS, type SweepRow } from '../findings/row.ts';
import { openPool } from '../study/pool.ts';
import type { SweepResult } from '../study/result.ts';
import { withRun } from '../study/run-settings.ts';
import { runSweeps } from '../study/run-sweeps.ts';
import { csvText } from './frame/csv.ts';
import { type ExitCode, exitCodes } from './frame/exit-codes.ts';
import { jsonText } from './frame/json.ts';
import { pageAssets } from './frame/page-assets.ts';
import { plainText } from './frame/plain-text.ts';
import { openRunFolder } from './frame/run-folder.ts';
import { type Column, tableText } from './frame/table.ts';
import type { Invocation } from './frame/verb.ts';

export async function run({ files, flags, terminal, signal, program }: Invocation): Promise<ExitCode> {
  const file = files[0] as string;
  const subject = withRun(loadCase(file, { set: flags.set }), flags);
  for (const warning of subject.warnings) terminal.warning(plainText(warning));
  const folder = openRunFolder({ out: flags.out, name: subject.name, overwrite: flags.overwrite });
  const result = await sweptCase(subject, { flags, terminal, signal, program });
  folder.write('sweep.csv', sweepCsv(result));
  folder.write('sweep.json', jsonText(result));
  folder.write('sweep.html', sweepPage(result, pageAssets('sweep'), { inputs: describeInputs(subject) }));
  terminal.answer(flags.json ? jsonText(result) : summary(result, terminal.colour));
  terminal.message(`Page: ${folder.file('sweep.html')}`);
  terminal.message(
    `sweep.csv and sweep.json lie beside it. Next: echocone compare ${plainText(file)} ANOTHER-DRAFT`,
  );
  return isWhole(result) ? exitCodes.done : exitCodes.unsettled;
}

/** Runs a case's speeds on worker threads. */
async function sweptCase(
  subject: Case,
  { flags, terminal, signal, program }: Pick<Invocation, 'flags' | 'terminal' | 'signal' | 'program'>,
): Promise<SweepResult> {
  const total = subject.run.speeds.length;
  const pool = openPool(Math.min(flags.threads, total));
  const progress = terminal.progress({ label: 'sweep', things: 'speeds', total });
  try {
    const advance = (speeds: number): void => progress.advance(speeds);
    const [result] = await runSweeps([subject], { pool, program, signal, advance });
    return result as SweepResult;
  } finally {
    progress.finish();
    await pool.close();
  }
}

export function sweepCsv(result: SweepResult): string {
  return csvText(
    COLUMNS.map((c) => c.name),
    result.rows,
  );
}

/** Every speed finished and settled. */
export function isWhole(result: SweepResult): boolean {
  return result.failures.length === 0 && result.rows.every((row) => row.settled);
}

const angle = (value: number): string => (Number.isFinite(value) ? value.toFixed(1) : '-');

const columns: readonly Column<SweepRow>[] = [
  { header: 'Speed', unit: 'rpm', text: (r) => r.speed_rpm.toFixed(0) },
  { header: 'plug-back', unit: 'deg', text: (r) => `${angle(r.plugback_onset_deg)}` },
  { header: 'peak', unit: 'deg', text: (r) => angle(r.plugback_peak_deg) },
  { header: 'lead', unit: 'deg', text: (r) => angle(r.plugback_lead_deg) },
  { header: 'before EC', unit: '%', text: (r) => (100 * r.plugback_share_before_closing).toFixed(0) },
  { header: 'packed', unit: '%', text: (r) => (100 * r.packed_mass_ratio).toFixed(0) },
  { header: 'torque', unit: 'Nm', text: (r) => r.torque_nm.toFixed(1) },
  { header: 'power', unit: 'kW', text: (r) => r.power_kw.toFixed(1) },
  {
    header: 'flange',
    unit: 'degC',
    optional: true,
    text: (r) => (r.exhaust_gas_temperature_k - 273.15).toFixed(0),
  },
  { header: '', align: 'left', text: (r) => (r.settled ? '' : 'not settled') },
];

function summary(result: SweepResult, colour: boolean): string {
  const { rows, failures } = result;
  const name = plainText(result.case.name);
  const best = rows.reduce<SweepRow | null>(
    (a, r) => (a === null || r.torque_nm > a.torque_nm ? r : a),
    null,
  );
  const lines = [`${name}\n`];
  const first = rows[0];
  if (first !== undefined) {
    lines.push(
      `Degrees after top dead centre. Transfers close (TC) at ${angle(first.transfers_close_deg)}, the exhaust (EC) at ` +
        `${angle(first.exhaust_closes_deg)}.\nLead: EC less the peak. > marks the best torque.\n\n`,
      tableText(columns, rows, { marked: (row) => row === best, colour }),
    );
  }
  for (const { speedRpm, reason } of failures) lines.push(`${speedRpm} rpm failed: ${plainText(reason)}\n`);
  return lines.join('');
}
