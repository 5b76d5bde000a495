/** `echocone reconcile`: measurements beside the prediction, and the inputs that explain the difference. */

import { rmSync } from 'node:fs';
import { reconcilePage } from '../../plots/pages/reconcile-page.ts';
import { reconcileCard } from '../../plots/pages/run-cards.ts';
import { engineDocument } from '../case/engine-document.ts';
import { openFile } from '../case/load.ts';
import { loadMeasured } from '../case/measured/measured-load.ts';
import { membersCsv } from '../study/ensemble/members-file.ts';
import { unusedErrors } from '../study/ensemble/uncertain-inputs.ts';
import { withLenders } from '../study/over/hired.ts';
import { refuseUnlike } from '../study/reconcile/agreement.ts';
import { engineNote, writtenInputs } from '../study/reconcile/engine-note.ts';
import { type HiredMembers, hireForMembers } from '../study/reconcile/hired-members.ts';
import {
  FEWEST,
  planReconcile,
  type ReconcilePlan,
  reconcileJournal,
  USUAL_COUNT,
} from '../study/reconcile/plan.ts';
import { type Reconciled, reconcile, runsOf } from '../study/reconcile/reconcile.ts';
import { membersAfter, type ReconcileReport, reconcileReport } from '../study/reconcile/report.ts';
import type { KeptMembers } from '../study/reconcile/run-members.ts';
import { openKeptJournal } from '../study/work/journal.ts';
import { openPool } from '../study/work/pool.ts';
import { type ExitCode, exitCodes, UsageError } from './frame/exit-codes.ts';
import { jsonText } from './frame/json.ts';
import { pageAssets } from './frame/page-assets.ts';
import { plainText } from './frame/plain-text.ts';
import { openRunFolder, type RunFolder } from './frame/run-folder.ts';
import { listRun } from './frame/run-index.ts';
import { shellFile, shellWord } from './frame/shell-word.ts';
import { typed } from './frame/typed.ts';
import type { Invocation } from './frame/verb.ts';
import { cancelled } from './words/cancelled.ts';
import { lenderTalk } from './words/lender-talk.ts';
import { reconcileText } from './words/reconcile-text.ts';

const JOURNAL = 'journal.jsonl';
const ENGINE = 'engine-reconciled.yaml';

export async function run(invocation: Invocation): Promise<ExitCode> {
  const { files, flags, terminal, signal, program } = invocation;
  const [file, ...measured] = files as [string, ...string[]];
  const count = flags.count ?? USUAL_COUNT;
  if (count < FEWEST) throw new UsageError(`--count takes at least ${FEWEST}: fewer members know nothing.`);
  const opened = openFile(file);
  const loaded = measured.map(loadMeasured);
  refuseUnlike(loaded);
  const plan = planReconcile({ opened, set: flags.set, files: loaded, count, cell: flags.cell, program });
  for (const warning of [...loaded.flatMap(({ warnings }) => warnings), ...plan.subject.warnings])
    terminal.warning(plainText(warning));
  const unused = unusedErrors(opened, plan.set, plan.inputs);
  if (unused.length > 0)
    terminal.warning(
      plainText(`Members do not follow the measuring errors of ${unused.join(', ')} in full.`),
    );
  const hiring = hiringOf(plan, invocation);
  if (flags.cancel === true) return await cancelled(hiring?.hire ?? null, terminal);
  const folder = openRunFolder({
    out: flags.out,
    name: `${plan.subject.name}-reconciled`,
    overwrite: flags.overwrite,
    resumes: JOURNAL,
  });
  const found = await reconciled(plan, { folder, hiring }, invocation);
  const report = reconcileReport(found);
  const document = { ...report, changed: flags.set };
  folder.write('reconciled.json', jsonText(document));
  folder.write('members.csv', membersCsv(membersAfter(found)));
  folder.write(ENGINE, engineText(found, report, flags.set));
  folder.write('reconciled.html', reconcilePage(report, pageAssets('reconcile')));
  listRun(folder, 'reconciled.html', reconcileCard(report), { terminal, program });
  terminal.answer(flags.json ? jsonText(document) : reconcileText(report.answer));
  terminal.message(`Page: ${folder.file('reconciled.html')}`);
  terminal.message(`Engine: ${folder.file(ENGINE)}`);
  terminal.message('members.csv lies beside it: the engines that fit, for sweep --bands --members.');
  const next = `engine=${folder.file(ENGINE)}`;
  if (report.answer.verdict !== 'not explained')
    terminal.message(`Next: ${typed()} sweep ${shellFile(file)} --set ${shellWord(next)}`);
  rmSync(folder.file(JOURNAL), { force: true });
  signal.throwIfAborted();
  return exitCodes.done;
}

/** Null: it runs on this machine. */
function hiringOf(plan: ReconcilePlan, { flags, terminal }: Invocation): HiredMembers | null {
  const { over } = flags;
  if (over === undefined) return null;
  return hireForMembers(plan, { over, say: (text) => terminal.warning(plainText(text)) });
}

/** Runs the plan on threads or by lenders, with its journal in the folder. */
async function reconciled(
  plan: ReconcilePlan,
  { folder, hiring }: { readonly folder: RunFolder; readonly hiring: HiredMembers | null },
  { flags, terminal, signal }: Invocation,
): Promise<Reconciled> {
  const path = folder.file(JOURNAL);
  const clear = flags.overwrite ? () => rmSync(path) : null;
  const kept: KeptMembers = openKeptJournal(path, reconcileJournal(plan), clear);
  const { journal, done } = kept;
  if (journal.dropped !== '') terminal.warning(journal.dropped);
  const total = runsOf(plan);
  const before = done.size;
  if (before > 0) terminal.message(`Going on: ${before} of ${total} runs of members are done already.`);
  return await withLenders(hiring?.hire ?? null, lenderTalk(terminal), async (hired) => {
    const pool = openPool(flags.threads);
    const crew = hiring === null || hired === null ? undefined : { pool: hired.pool, named: hiring.named };
    const progress = terminal.progress({ label: 'reconcile', things: 'members', total, before });
    let ran = 0;
    const advance = (): void => {
      ran += 1;
      progress.advance(ran, hired?.book.text);
    };
    try {
      return await reconcile(plan, { pool, crew, kept, signal, advance });
    } catch (error) {
      if (signal.aborted) terminal.warning(`To go on: the same command with --out ${shellFile(folder.path)}`);
      throw error;
    } finally {
      progress.finish();
      journal.close();
      await pool.close();
    }
  });
}

/** The engine with the middle of its inputs, each with a comment. */
function engineText(found: Reconciled, report: ReconcileReport, set: readonly string[]): string {
  return engineDocument(found.plan.opened, set, writtenInputs(report), engineNote(report));
}
