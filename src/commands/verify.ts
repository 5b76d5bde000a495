/** `echocone verify`: problems with known answers, their errors, orders and bounds; a table, a document and a page. */

import { verifyCard } from '../../plots/pages/run-cards.ts';
import { verifyPage } from '../../plots/pages/verify-page.ts';
import { problemCount, runVerify, type VerifyResult } from '../study/verify.ts';
import { openPool } from '../study/work/pool.ts';
import { type ExitCode, exitCodes } from './frame/exit-codes.ts';
import { jsonText } from './frame/json.ts';
import { pageAssets } from './frame/page-assets.ts';
import { openRunFolder } from './frame/run-folder.ts';
import { listRun } from './frame/run-index.ts';
import { type Column, tableText } from './frame/table.ts';
import type { Invocation } from './frame/verb.ts';

type Check = VerifyResult['checks'][number];

export async function run({ flags, terminal, signal, program }: Invocation): Promise<ExitCode> {
  const folder = openRunFolder({ out: flags.out, name: 'verify', overwrite: flags.overwrite });
  const progress = terminal.progress({ label: 'verify', things: 'checks', total: problemCount });
  const pool = openPool(flags.threads);
  try {
    const done = (count: number, name: string): void => progress.advance(count, name);
    const result = await runVerify(pool, { program, signal, done });
    progress.finish();
    const document = jsonText(result);
    folder.write('verify.json', document);
    folder.write('verify.html', verifyPage(result, pageAssets('verify')));
    listRun(folder, 'verify.html', verifyCard(result), { terminal, program });
    terminal.answer(flags.json ? document : summary(result, terminal.colour));
    terminal.message(`verify.json and verify.html in ${folder.path}`);
    return result.missed.length === 0 ? exitCodes.done : exitCodes.unsettled;
  } finally {
    progress.finish();
    folder.giveUp();
    await pool.close();
  }
}

const columns: readonly Column<Check>[] = [
  { header: '', align: 'left', text: (check) => (check.pass ? '✓' : '✗') },
  { header: 'Check', align: 'left', text: ({ name }) => name },
  { header: 'n', text: ({ cells }) => (cells.length > 1 ? String(cells[0]) : '') },
  { header: 'at n', text: ({ errors }) => errorText(errors[0]) },
  { header: 'at 2n', text: ({ errors }) => errorText(errors[1]) },
  { header: 'at 4n', text: ({ errors }) => errorText(errors[2]) },
  {
    header: 'order',
    text: ({ order }) => (order === null ? '' : order.toFixed(1).replace(/^-(?=0\.0$)/, '')),
  },
  { header: 'bound', text: ({ limit }) => errorText(limit) },
];

/** Two figures: 0.12, 3.4e-7. */
function errorText(error: number | undefined): string {
  if (error === undefined) return '';
  if (error === 0) return '0';
  return error >= 0.001 && error < 1000 ? String(Number(error.toPrecision(2))) : error.toExponential(1);
}

function summary(result: VerifyResult, colour: boolean): string {
  const { checks, missed, passed, seconds } = result;
  const table = tableText(columns, checks, { marked: (check) => !check.pass, colour });
  const verdict =
    missed.length === 0
      ? `All ${passed} checks are within their bounds.`
      : `${missed.length} of ${checks.length} checks missed: ${missed.join('; ')}.`;
  return `${table}\n${verdict} ${seconds.toFixed(0)} s.\nOf what each error is, its source and the mesh of its bound: verify.html.\n`;
}
