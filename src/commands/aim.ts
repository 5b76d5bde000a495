/** `echocone aim`: a pipe for a target speed, moved with the full model until the score is best. */

import { aimPage } from '../../plots/pages/aim-page.ts';
import { aimCard } from '../../plots/pages/run-cards.ts';
import { loadCase } from '../case/load.ts';
import { pipeDocument } from '../case/pipe/pipe-document.ts';
import { limitsOf } from '../case/study/flag-limits.ts';
import type { Case } from '../model/case.ts';
import { aim } from '../study/aim/aim.ts';
import { type Evaluator, openEvaluator } from '../study/aim/evaluator.ts';
import { BAND } from '../study/aim/objective.ts';
import { aimDocument, aimPageResult } from '../study/aim/report.ts';
import type { AimResult, SteppedPipe } from '../study/aim/result.ts';
import type { AimWatcher } from '../study/aim/walk.ts';
import type { AimWish } from '../study/aim/wish.ts';
import type { JournalOf } from '../study/work/journal.ts';
import { refuseHugeMesh } from '../study/work/mesh-limit.ts';
import { openPool } from '../study/work/pool.ts';
import { studyCell } from '../study/work/study-cell.ts';
import { type ExitCode, exitCodes, UsageError } from './frame/exit-codes.ts';
import type { Flags } from './frame/flags.ts';
import { jsonText } from './frame/json.ts';
import { pageAssets } from './frame/page-assets.ts';
import { plainText } from './frame/plain-text.ts';
import { fileNameOf, openRunFolder, type RunFolder } from './frame/run-folder.ts';
import { listRun } from './frame/run-index.ts';
import { shellFile, shellWord } from './frame/shell-word.ts';
import type { Terminal } from './frame/terminal.ts';
import { typed } from './frame/typed.ts';
import type { Invocation } from './frame/verb.ts';
import { whatIfName } from './frame/what-if-name.ts';
import { aimAdvice } from './words/aim-advice.ts';
import { aimText } from './words/aim-text.ts';

const JOURNAL = 'journal.jsonl';
/** Cells of the search, and no shorter than those of what is offered [m]. */
const SEARCH_CELL = 20e-3;
const SEED = 1;
/** Fewer drafts than this are hardly a search. */
const FEW = 20;

export async function run({ files, flags, terminal, signal, program }: Invocation): Promise<ExitCode> {
  const file = files[0]!;
  const loaded = loadCase(file, { set: flags.set });
  const subject = { ...loaded, run: { ...loaded.run, cell: studyCell(loaded, flags.cell) } };
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
  const following = follow(terminal);
  try {
    evaluator = openEvaluator({ journal: folder.file(JOURNAL), what: whatOf(wish, program), pool, signal });
    announce(terminal, wish, flags.set, evaluator);
    const result = await aim(wish, evaluator, following.watcher);
    following.finish();
    const assumedWall = subject.assumed.some(({ path }) => path === 'pipe.wall');
    const told = {
      program,
      name: whatIfName(subject.name, flags.set),
      changed: flags.set,
      files: writePipes(folder, wish, result, { program, wall: assumedWall ? 'assumed' : 'stated' }),
    };
    const page = aimPageResult(wish, result, told);
    const document = { ...aimDocument(wish, result, told), ...aimAdvice(wish, result, page) };
    folder.write('aim.json', jsonText(document));
    folder.write('aim.html', aimPage(page, pageAssets('aim')));
    const changed = flags.set.length === 0 ? {} : { changed: flags.set };
    listRun(folder, 'aim.html', { ...aimCard(page), ...changed }, { terminal, program });
    terminal.answer(flags.json ? jsonText(document) : aimText(page, result, terminal.colour));
    terminal.message(`Page: ${folder.file('aim.html')}`);
    const built = told.files.filter((name) => name !== null);
    for (const name of built) terminal.message(`New pipe: ${folder.file(name)}`);
    const first = told.files[result.steps.findIndex(({ id }) => id === document.first)] ?? built.at(-1);
    if (first !== undefined)
      terminal.message(
        `Next: ${typed()} sweep ${shellFile(file)} --set ${shellWord(`pipe=${folder.file(first)}`)}`,
      );
    return settledThere(wish, result) ? exitCodes.done : exitCodes.unsettled;
  } catch (error) {
    if (signal.aborted) terminal.warning(`Go on with the same command and --out ${shellFile(folder.path)}`);
    throw error;
  } finally {
    following.finish();
    evaluator?.close();
    await pool.close();
  }
}

const STAGES = {
  start: 'what there is',
  header: 'header',
  'header and baffle': 'header and baffle',
  all: 'all lengths and bores',
  asked: 'what was asked for',
  proof: 'proof',
} as const;

/** Follows an aim to its end, a line for each of its stages. */
function follow(terminal: Terminal): { readonly watcher: AimWatcher; readonly finish: () => void } {
  let progress: ReturnType<Terminal['progress']> | null = null;
  const finish = (): void => {
    progress?.finish();
    progress = null;
  };
  return {
    watcher: {
      stage(name, total) {
        finish();
        const label = `aim, ${STAGES[name]}`;
        progress = terminal.progress({ label, things: name === 'proof' ? 'runs' : 'drafts', total });
        if (name === 'proof')
          terminal.message('What is offered is run over its speeds, and built a little off.');
      },
      ran: (runs, best) =>
        progress?.advance(runs, best === null ? undefined : `best so far ${best.toFixed(2)} Nm`),
    },
    finish,
  };
}

/** Writes the pipe of each step that changed something; their file names, null where nothing is new. */
function writePipes(
  folder: RunFolder,
  wish: AimWish,
  result: AimResult,
  { program, wall }: { readonly program: string; readonly wall: 'assumed' | 'stated' },
): readonly (string | null)[] {
  let before = wish.subject.pipe;
  return result.steps.map((step) => {
    if (step.pipe === before) return null;
    before = step.pipe;
    const name = `${fileNameOf(step.pipe.name)}.yaml`;
    folder.write(name, pipeDocument(step.pipe, noteOf(wish, step, program), wall));
    return name;
  });
}

/** Whether the aimed pipe settled at the speeds that it is judged by. */
function settledThere({ target }: AimWish, { after }: AimResult): boolean {
  return after.rows
    .filter(({ speed_rpm }) => Math.abs(speed_rpm - target) <= BAND)
    .every(({ settled }) => settled);
}

function wishOf(subject: Case, flags: Flags): AimWish {
  const target = flags.target ?? subject.run.targetSpeed;
  if (target === null)
    throw new UsageError('Name the speed to aim at with --rpm: the case states no run.targetSpeed.');
  if (!(target >= 1000 && target <= 30_000))
    throw new UsageError(`--rpm ${target}: aim takes a speed from 1000 to 30000 rpm.`);
  return {
    subject,
    target,
    from: flags.from as AimWish['from'],
    vary: flags.vary,
    constraints: limitsOf(flags.limits),
    rules: flags.rules !== false,
    mostDrafts: flags.mostDrafts,
    searchCell: Math.max(SEARCH_CELL, subject.run.cell),
    seed: SEED,
  };
}

/** What the journal is of; with more drafts the same search goes on. */
function whatOf(wish: AimWish, program: string): JournalOf {
  const { subject, mostDrafts: _, ...rest } = wish;
  const { engine, pipe, run } = subject;
  return { kind: 'aim', name: subject.name, program, what: { engine, pipe, run, wish: rest } };
}

function announce(terminal: Terminal, wish: AimWish, set: readonly string[], evaluator: Evaluator): void {
  const { subject, target, mostDrafts, searchCell } = wish;
  const mm = (cell: number): number => Number((1000 * cell).toFixed(1));
  terminal.message(
    `${plainText(whatIfName(subject.name, set))}: a pipe for ${target} rpm, at most ${mostDrafts} drafts of three speeds on ` +
      `cells of ${mm(searchCell)} mm; what is offered is run on ${mm(subject.run.cell)} mm.`,
  );
  if (mostDrafts < FEW)
    terminal.warning(
      `${mostDrafts} drafts are the given, the handbook's and hardly a search; ${FEW} or more make one.`,
    );
  if (evaluator.dropped !== '') terminal.warning(evaluator.dropped);
  if (evaluator.done > 0) terminal.message(`Going on with a journal of ${evaluator.done} finished runs.`);
}

function noteOf({ subject, target }: AimWish, { judged }: SteppedPipe, program: string): string {
  const torque = judged === null ? '' : `, ${judged.torque.toFixed(2)} Nm mean over ${target} rpm +- ${BAND}`;
  return `Aimed at ${target} rpm from ${plainText(subject.pipe.name)} by ${program}${torque}.`;
}
