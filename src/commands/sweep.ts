/** `echocone sweep`: the running engine over a range of speeds; a table, a document and a page. */

import { sweepCard } from '../../plots/pages/run-cards.ts';
import { sweepPage } from '../../plots/pages/sweep-page.ts';
import { caseOf, describeInputs, type OpenedFile, openFile } from '../case/load.ts';
import type { Case } from '../case/model.ts';
import { COLUMNS, type SweepRow } from '../findings/row.ts';
import { openPool, type Pool } from '../study/pool.ts';
import type { SweepResult } from '../study/result.ts';
import { withRun } from '../study/run-settings.ts';
import { runSweeps } from '../study/run-sweeps.ts';
import { assumedVariants, type Moves, movesAt } from '../study/sensitivity.ts';
import { csvText } from './frame/csv.ts';
import { type ExitCode, exitCodes } from './frame/exit-codes.ts';
import { jsonText } from './frame/json.ts';
import { pageAssets } from './frame/page-assets.ts';
import { plainText } from './frame/plain-text.ts';
import { openRunFolder } from './frame/run-folder.ts';
import { listRun } from './frame/run-index.ts';
import { type Column, tableText } from './frame/table.ts';
import type { Invocation } from './frame/verb.ts';
import { inputsWithMoves, movesText } from './words/moves-text.ts';

export async function run({ files, flags, terminal, signal, program }: Invocation): Promise<ExitCode> {
  const file = files[0] as string;
  const opened = openFile(file);
  const subject = withRun(caseOf(opened, flags.set), flags);
  for (const warning of subject.warnings) terminal.warning(plainText(warning));
  const folder = openRunFolder({ out: flags.out, name: subject.name, overwrite: flags.overwrite });
  const pool = openPool(flags.threads);
  const use = { pool, opened, flags, terminal, signal, program };
  let swept: Swept;
  try {
    swept = await sweptCase(subject, use);
  } finally {
    await pool.close();
  }
  const { result, moves } = swept;
  const document = { ...result, ...(moves === null ? {} : { moves }) };
  folder.write('sweep.csv', sweepCsv(result));
  folder.write('sweep.json', jsonText(document));
  const inputs = inputsWithMoves(describeInputs(subject), moves?.of ?? []);
  const extras = { inputs, ...(moves === null ? {} : { movesAt: moves }) };
  folder.write('sweep.html', sweepPage(result, pageAssets('sweep'), extras));
  listRun(folder, 'sweep.html', sweepCard(result), { terminal, program });
  terminal.answer(
    flags.json
      ? jsonText(document)
      : summary(result, terminal.colour) + (moves === null ? '' : movesText(moves)),
  );
  terminal.message(`Page: ${folder.file('sweep.html')}`);
  terminal.message(
    `sweep.csv and sweep.json lie beside it. Next: echocone compare ${plainText(file)} ANOTHER-DRAFT`,
  );
  return isWhole(result) ? exitCodes.done : exitCodes.unsettled;
}

interface Swept {
  readonly result: SweepResult;
  /** Null: not asked for. */
  readonly moves: Moves | null;
}

/** Runs a case's speeds on worker threads, then what its inputs move where that is asked for. */
async function sweptCase(
  subject: Case,
  use: Pick<Invocation, 'flags' | 'terminal' | 'signal' | 'program'> & { pool: Pool; opened: OpenedFile },
): Promise<Swept> {
  const { pool, opened, flags, terminal, signal, program } = use;
  const total = subject.run.speeds.length;
  const progress = terminal.progress({ label: 'sweep', things: 'speeds', total });
  let result: SweepResult;
  try {
    const advance = (speeds: number): void => progress.advance(speeds);
    [result] = (await runSweeps([subject], { pool, program, signal, advance })) as [SweepResult];
  } finally {
    progress.finish();
  }
  const speedRpm = speedOfInterest(result);
  if (flags.moves !== true || speedRpm === null) return { result, moves: null };
  const study = { subject, variants: assumedVariants(opened, flags.set) };
  const inputs = terminal.progress({
    label: `inputs at ${speedRpm} rpm`,
    things: 'changes',
    total: study.variants.length + 1,
  });
  try {
    const advance = (changes: number): void => inputs.advance(changes);
    return { result, moves: await movesAt(speedRpm, study, { pool, signal, advance }) };
  } finally {
    inputs.finish();
  }
}

/** The target where it was swept, or the speed of most torque [rpm]. */
function speedOfInterest({ rows, case: { run } }: SweepResult): number | null {
  const target = rows.find((row) => row.speed_rpm === run.targetSpeed) ?? bestTorque(rows);
  return target?.speed_rpm ?? null;
}

function bestTorque(rows: readonly SweepRow[]): SweepRow | null {
  return rows.reduce<SweepRow | null>((a, r) => (a === null || r.torque_nm > a.torque_nm ? r : a), null);
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
  const best = bestTorque(rows);
  const lines = [`${name}\n`];
  const first = rows[0];
  if (first !== undefined) {
    lines.push(
      `Angles in degrees after top dead centre: transfers close (TC) ${angle(first.transfers_close_deg)},\n` +
        `exhaust closes (EC) ${angle(first.exhaust_closes_deg)}. Lead: EC less the peak. > marks the best torque.\n\n`,
      tableText(columns, rows, { marked: (row) => row === best, colour }),
    );
  }
  for (const { speedRpm, reason } of failures) lines.push(`${speedRpm} rpm failed: ${plainText(reason)}\n`);
  return lines.join('');
}
