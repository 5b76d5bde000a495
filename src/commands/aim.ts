/** `echocone aim`: a pipe for a target speed, moved with the full model until the score is best. */

import { aimPage } from '../../plots/pages/aim-page.ts';
import { safetyText } from '../../plots/pages/aim-words.ts';
import { aimCard } from '../../plots/pages/run-cards.ts';
import { unsettledText } from '../../plots/pages/unsettled.ts';
import { loadCase } from '../case/load.ts';
import { pipeDocument } from '../case/pipe/pipe-document.ts';
import { limitsOf } from '../case/study/flag-limits.ts';
import { safetyOf } from '../findings/answers/aim.ts';
import { middleLead } from '../findings/landing.ts';
import type { SweepRow } from '../findings/row.ts';
import type { Case } from '../model/case.ts';
import { aim } from '../study/aim/aim.ts';
import { type Evaluator, openEvaluator } from '../study/aim/evaluator.ts';
import { BAND } from '../study/aim/objective.ts';
import { aimDocument, aimPageResult, changeLines, whyNot } from '../study/aim/report.ts';
import type { AimResult, AimWish } from '../study/aim/result.ts';
import type { JournalOf } from '../study/work/journal.ts';
import { refuseHugeMesh } from '../study/work/mesh-limit.ts';
import { openPool } from '../study/work/pool.ts';
import { type ExitCode, exitCodes, UsageError } from './frame/exit-codes.ts';
import type { Flags } from './frame/flags.ts';
import { folded } from './frame/folded.ts';
import { jsonText } from './frame/json.ts';
import { pageAssets } from './frame/page-assets.ts';
import { plainText } from './frame/plain-text.ts';
import { fileNameOf, openRunFolder } from './frame/run-folder.ts';
import { listRun } from './frame/run-index.ts';
import { shellFile, shellWord } from './frame/shell-word.ts';
import { type Column, tableText } from './frame/table.ts';
import type { Terminal } from './frame/terminal.ts';
import { typed } from './frame/typed.ts';
import type { Invocation } from './frame/verb.ts';
import { pageWords } from './words/page-words.ts';

const JOURNAL = 'journal.jsonl';
/** The search's cells are so many times longer than the case's, and no shorter than this [m]. */
const COARSER = 1.6;
const SEARCH_CELL = 0.01;
const SEED = 1;
/** Fewer drafts than this are hardly a search. */
const FEW = 20;

export async function run({ files, flags, terminal, signal, program }: Invocation): Promise<ExitCode> {
  const file = files[0] as string;
  const subject = withCell(loadCase(file, { set: flags.set }), flags.cell);
  const wish = wishOf(subject, flags);
  refuseHugeMesh(subject);
  for (const warning of subject.warnings) terminal.warning(plainText(warning));
  const folder = openRunFolder({
    out: flags.out,
    name: `${subject.name}-${wish.target}`,
    overwrite: flags.overwrite,
    resumes: JOURNAL,
  });
  const pool = openPool(flags.threads);
  let evaluator: Evaluator | null = null;
  const progress = terminal.progress({ label: 'aim', things: 'drafts', total: wish.mostDrafts });
  try {
    evaluator = openEvaluator({ journal: folder.file(JOURNAL), what: whatOf(wish, program), pool, signal });
    announce(terminal, wish, evaluator);
    const result = await aim(wish, evaluator, {
      stage: (name) => {
        progress.finish();
        if (name === 'proof')
          terminal.message('The best few, in whole millimetres, are run on the finer mesh.');
      },
      searched: (evaluations, best) =>
        progress.advance(evaluations, best === null ? undefined : `best so far ${best.toFixed(2)} Nm`),
    });
    progress.finish();
    const newFile = `${fileNameOf(result.after.pipe.name)}.yaml`;
    const assumedWall = subject.assumed.some(({ path }) => path === 'pipe.wall');
    folder.write(
      newFile,
      pipeDocument(result.after.pipe, noteOf(wish, result, program), assumedWall ? 'assumed' : 'stated'),
    );
    const document = aimDocument(wish, result, { program, newFile });
    folder.write('aim.json', jsonText(document));
    const page = aimPageResult(wish, result, { program, newFile });
    folder.write('aim.html', aimPage(page, pageAssets('aim')));
    listRun(folder, 'aim.html', aimCard(page), { terminal, program });
    terminal.answer(flags.json ? jsonText(document) : answer(wish, result, terminal.colour));
    terminal.message(`Page: ${folder.file('aim.html')}`);
    terminal.message(`New pipe: ${folder.file(newFile)}`);
    terminal.message(
      `Next: ${typed()} sweep ${shellFile(file)} --set ${shellWord(`pipe=${folder.file(newFile)}`)}`,
    );
    return settledThere(wish, result) ? exitCodes.done : exitCodes.unsettled;
  } catch (error) {
    progress.finish();
    if (signal.aborted) terminal.warning(`Go on with the same command and --out ${shellFile(folder.path)}`);
    throw error;
  } finally {
    evaluator?.close();
    await pool.close();
  }
}

/** Whether the aimed pipe settled at the speeds that it is judged by. */
function settledThere({ target }: AimWish, { after }: AimResult): boolean {
  return after.rows
    .filter(({ speed_rpm }) => Math.abs(speed_rpm - target) <= BAND)
    .every(({ settled }) => settled);
}

function withCell(subject: Case, cell: number | undefined): Case {
  return cell === undefined ? subject : { ...subject, run: { ...subject.run, cell } };
}

function wishOf(subject: Case, flags: Flags): AimWish {
  const target = flags.target as number;
  if (!(target >= 1000 && target <= 30_000))
    throw new UsageError(`--rpm ${target}: aim takes a speed from 1000 to 30000 rpm.`);
  return {
    subject,
    target,
    from: flags.from as AimWish['from'],
    vary: flags.vary,
    constraints: limitsOf(flags.limits),
    mostDrafts: flags.mostDrafts,
    searchCell: Math.max(SEARCH_CELL, COARSER * subject.run.cell),
    seed: SEED,
  };
}

/** What the journal is of; with more drafts the same search goes on. */
function whatOf(wish: AimWish, program: string): JournalOf {
  const { subject, mostDrafts: _, ...rest } = wish;
  const { engine, pipe, run } = subject;
  return { kind: 'aim', name: subject.name, program, what: { engine, pipe, run, wish: rest } };
}

function announce(terminal: Terminal, wish: AimWish, evaluator: Evaluator): void {
  const { subject, target, mostDrafts, searchCell } = wish;
  terminal.message(
    `${plainText(subject.name)}: a pipe for ${target} rpm, at most ${mostDrafts} drafts of three speeds at ` +
      `${Number((1000 * searchCell).toFixed(1))} mm cells; then the best few on the finer mesh and what moves them.`,
  );
  if (mostDrafts < FEW)
    terminal.warning(
      `${mostDrafts} drafts are the given, the handbook's and hardly a search; ${FEW} or more make one.`,
    );
  if (evaluator.dropped !== '') terminal.warning(evaluator.dropped);
  if (evaluator.done > 0) terminal.message(`Going on with a journal of ${evaluator.done} finished runs.`);
}

function noteOf({ subject, target }: AimWish, { after }: AimResult, program: string): string {
  const torque =
    after.judged === null ? '' : `, ${after.judged.torque.toFixed(2)} Nm mean over ${target} rpm +- 250`;
  return `Aimed at ${target} rpm from ${plainText(subject.pipe.name)} by ${program}${torque}.`;
}

function answer(wish: AimWish, result: AimResult, colour: boolean): string {
  const { target } = wish;
  const lines = changeLines(result);
  const columns: Column<(typeof lines)[number]>[] = [
    { header: 'What', align: 'left', text: (one) => one.name },
    { header: 'start', unit: 'mm', text: (one) => one.start.toFixed(0) },
    { header: 'aimed', unit: 'mm', text: (one) => one.after.toFixed(0) },
    { header: 'change', unit: 'mm', text: (one) => `${one.change > 0 ? '+' : ''}${one.change.toFixed(0)}` },
    { header: 'rests on', align: 'left', text: (one) => one.limit },
  ];
  const why: Column<AimResult['sensitivities'][number]>[] = [
    { header: 'Why, at the target', align: 'left', text: (one) => one.name },
    { header: 'by', text: (one) => one.step },
    { header: 'lead less', unit: 'deg', text: (one) => signed(one.leadLessDeg, 1) },
    { header: 'more', unit: 'deg', text: (one) => signed(one.leadMoreDeg, 1) },
    { header: 'torque less', unit: 'Nm', text: (one) => signed(one.torqueLessNm, 2) },
    { header: 'more', unit: 'Nm', text: (one) => signed(one.torqueMoreNm, 2) },
  ];
  const reached = [
    ...result.limits,
    ...whyNot(wish.from === 'handbook' ? result.start : result.given, result),
  ];
  const limits = reached.length === 0 ? 'No limit is reached.' : `Limits: ${reached.join('; ')}.`;
  return [
    `${plainText(wish.subject.name)} aimed at ${target} rpm, started from the ${result.startedFrom}${result.startedFrom === 'handbook' ? "'s pipe" : ''}.\n\n`,
    tableText(columns, lines, { colour }),
    '\n',
    tableText(pipeColumns(target), pipesOf(result), { colour, marked: (one) => one.name === 'aimed' }),
    '\n',
    tableText(why, result.sensitivities, { colour }),
    '\nLeads: degrees before exhaust closing; their changes are of the middle.\n\n',
    ...safetyLines(wish, result).map((line) => `${folded(line)}\n`),
    `${folded(`${limits} The search ended: ${result.end}.`)}\n`,
  ].join('');
}

/** How near an edge the pipe stands, what to do about it, and which speeds did not settle, in the page's words. */
function safetyLines(wish: AimWish, result: AimResult): readonly string[] {
  const { how, advice } = safetyText(safetyOf(aimPageResult(wish, result, { program: '', newFile: '' })));
  const pipes = pipesOf(result).map(({ name, pipe }) => ({ name, rows: pipe.rows }));
  return [`How safe: ${how}`, advice, unsettledText(pipes)].filter((line) => line !== '').map(pageWords);
}

interface PipeLine {
  readonly name: string;
  readonly pipe: AimResult['given'];
}

function pipesOf({ given, start, after }: AimResult): readonly PipeLine[] {
  return [
    { name: 'given', pipe: given },
    ...(start.pipe === given.pipe ? [] : [{ name: 'start', pipe: start }]),
    { name: 'aimed', pipe: after },
  ];
}

function pipeColumns(target: number): readonly Column<PipeLine>[] {
  const row = ({ pipe }: PipeLine) => pipe.rows.find((one) => one.speed_rpm === target);
  const number = (value: number | null | undefined, digits: number): string => value?.toFixed(digits) ?? '-';
  const leadOf = (one: SweepRow | undefined): number | null => (one === undefined ? null : middleLead(one));
  return [
    { header: 'Pipe', align: 'left', text: ({ name }) => name },
    { header: 'mean torque', unit: 'Nm', text: ({ pipe }) => number(pipe.judged?.torque, 2) },
    { header: 'torque', unit: 'Nm', text: (one) => number(row(one)?.torque_nm, 2) },
    { header: 'power', unit: 'kW', text: (one) => number(row(one)?.power_kw, 2) },
    { header: 'lead of middle', unit: 'deg', text: (one) => number(leadOf(row(one)), 1) },
    { header: 'of peak', unit: 'deg', text: (one) => number(row(one)?.plugback_lead_deg, 1) },
  ];
}

const signed = (value: number, digits: number): string => `${value > 0 ? '+' : ''}${value.toFixed(digits)}`;
