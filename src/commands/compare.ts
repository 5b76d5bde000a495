/** `echocone compare`: sweeps of two to eight drafts, measured against the first; a table, a document and a page. */

import { comparePage } from '../../plots/pages/compare-page.ts';
import { compareCard } from '../../plots/pages/run-cards.ts';
import { loadCase } from '../case/load.ts';
import type { SweepResult } from '../engine/read/result.ts';
import { type CompareAnswer, compareAnswer, MOST_DRAFTS } from '../findings/answers/compare.ts';
import { COLUMNS } from '../findings/row.ts';
import { isWhole } from '../findings/settled.ts';
import type { Case } from '../model/case.ts';
import { runSweeps } from '../study/sweep/run-sweeps.ts';
import { openPool } from '../study/work/pool.ts';
import { withRun } from '../study/work/run-settings.ts';
import { csvText } from './frame/csv.ts';
import { shortNames, uniqueNames } from './frame/draft-names.ts';
import { type ExitCode, exitCodes, UsageError } from './frame/exit-codes.ts';
import { jsonText } from './frame/json.ts';
import { pageAssets } from './frame/page-assets.ts';
import { plainText } from './frame/plain-text.ts';
import { openRunFolder } from './frame/run-folder.ts';
import { listRun } from './frame/run-index.ts';
import { shellFile } from './frame/shell-word.ts';
import { typed } from './frame/typed.ts';
import type { Invocation } from './frame/verb.ts';
import { compareText } from './words/compare-text.ts';

export async function run({ files, flags, terminal, signal, program }: Invocation): Promise<ExitCode> {
  if (files.length < 2 || files.length > MOST_DRAFTS)
    throw new UsageError(`Compare takes two to ${MOST_DRAFTS} cases; ${files.length} named.`);
  const subjects = files.map((file) => withRun(loadCase(file, { set: flags.set }), flags));
  for (const { name, warnings } of subjects)
    for (const warning of warnings) terminal.warning(plainText(`${name}: ${warning}`));
  const band = flags.band === undefined ? null : covered(flags.band, subjects);
  const first = subjects[0] as Case;
  const folder = openRunFolder({
    out: flags.out,
    name: `compare ${first.name}`,
    overwrite: flags.overwrite,
  });
  const total = subjects.reduce((sum, { run }) => sum + run.speeds.length, 0);
  const pool = openPool(Math.min(flags.threads, total));
  const progress = terminal.progress({ label: 'compare', things: 'speeds', total });
  let sweeps: readonly SweepResult[];
  try {
    const advance = (speeds: number): void => progress.advance(speeds);
    sweeps = await runSweeps(subjects, { pool, program, signal, advance });
  } finally {
    progress.finish();
    await pool.close();
  }
  const names = uniqueNames(subjects.map(({ name }) => name));
  const short = shortNames(names);
  const { targetSpeed } = first.run;
  const compared = sweeps.map(({ rows }, k) => ({ name: short[k] ?? '', rows }));
  const result = compareAnswer(compared, targetSpeed, band);
  folder.write('compare.csv', compareCsv(names, sweeps));
  const document = compareDocument({ program, names, files, sweeps, result });
  folder.write('compare.json', jsonText(document));
  const drafts = sweeps.map((sweep, k) => ({ name: short[k] as string, sweep }));
  const page = { program, drafts, targetSpeed, answer: result };
  folder.write('compare.html', comparePage(page, pageAssets('compare')));
  listRun(folder, 'compare.html', compareCard(page), { terminal, program });
  terminal.answer(flags.json ? jsonText(document) : compareText(result, names, sweeps, terminal.colour));
  terminal.message(`Page: ${folder.file('compare.html')}`);
  terminal.message('compare.csv and compare.json lie beside it.');
  terminal.message(`Next: ${typed()} map ${shellFile(files[0] ?? '')}`);
  return sweeps.every(({ rows, failures }) => isWhole(rows, failures)) ? exitCodes.done : exitCodes.unsettled;
}

/** A band that all drafts cover. @throws UsageError */
function covered(band: NonNullable<Invocation['flags']['band']>, subjects: readonly Case[]) {
  for (const { name, run } of subjects) {
    const [low, high] = [run.speeds[0] ?? 0, run.speeds.at(-1) ?? 0];
    if (band.from < low || band.to > high)
      throw new UsageError(
        `--band ${band.from}:${band.to} reaches beyond the speeds of ${plainText(name)}, ${low} to ${high} rpm. ` +
          'Name a band within them, or more speeds with --rpm.',
      );
  }
  return band;
}

function compareCsv(names: readonly string[], sweeps: readonly SweepResult[]): string {
  return csvText(
    ['draft', ...COLUMNS.map((c) => c.name)],
    sweeps.flatMap((sweep, k) => sweep.rows.map((row) => ({ draft: names[k], ...row }))),
  );
}

/** Rows and summaries; traces are each draft's own sweep's. */
function compareDocument(of: {
  readonly program: string;
  readonly names: readonly string[];
  readonly files: readonly string[];
  readonly sweeps: readonly SweepResult[];
  readonly result: CompareAnswer;
}) {
  const { targetSpeed, band, drafts } = of.result;
  return {
    schemaVersion: 1,
    kind: 'compare',
    program: of.program,
    targetSpeed,
    band,
    drafts: of.sweeps.map((sweep, k) => ({
      name: of.names[k],
      file: of.files[k],
      summary: { ...drafts[k]?.summary, name: of.names[k] },
      againstFirst: drafts[k]?.lessFirst ?? null,
      open: { torqueBand: drafts[k]?.torqueBandOpen, powerBand: drafts[k]?.powerBandOpen },
      displacement: sweep.displacement,
      outline: sweep.outline,
      case: sweep.case,
      rows: sweep.rows,
      failures: sweep.failures,
    })),
  };
}
