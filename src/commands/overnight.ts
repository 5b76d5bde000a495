/** `echocone overnight`: many drafts of one engine, ranked; stopped at any moment and gone on with. */

import { overnightPage } from '../../plots/pages/overnight-page.ts';
import { overnightCard } from '../../plots/pages/run-cards.ts';
import { loadStudy, type OpenedStudy } from '../case/study/study-load.ts';
import { type Hire, type Hired, withLenders } from '../study/over/hired.ts';
import { type Drafts, draftsOf } from '../study/overnight/drafts.ts';
import { journalOf } from '../study/overnight/fingerprint.ts';
import { type Plan, planOf } from '../study/overnight/plan.ts';
import type { RankedDraft } from '../study/overnight/ranking.ts';
import {
  newTally,
  type OvernightTask,
  parcelOf,
  runOvernight,
  type Watcher,
} from '../study/overnight/run.ts';
import { type OvernightSummary, overnightSummary } from '../study/overnight/summary.ts';
import { overnightPageResult, rankingDocument, rankingTable } from '../study/overnight/tables.ts';
import type { Tally } from '../study/overnight/tally.ts';
import { studyFingerprint } from '../study/work/journal.ts';
import { openPool } from '../study/work/pool.ts';
import { SCORE_COLUMNS, scoreText } from '../study/work/score.ts';
import { csvText } from './frame/csv.ts';
import { type ExitCode, exitCodes } from './frame/exit-codes.ts';
import type { Flags } from './frame/flags.ts';
import { jsonText } from './frame/json.ts';
import { pageAssets } from './frame/page-assets.ts';
import { plainText } from './frame/plain-text.ts';
import { durationText } from './frame/progress.ts';
import { openRunFolder, type RunFolder } from './frame/run-folder.ts';
import { listRun } from './frame/run-index.ts';
import { shellFile, shellWord } from './frame/shell-word.ts';
import { type Column, tableText } from './frame/table.ts';
import type { Terminal } from './frame/terminal.ts';
import { typed } from './frame/typed.ts';
import type { Invocation } from './frame/verb.ts';
import { whatIfName } from './frame/what-if-name.ts';
import { cancelled } from './words/cancelled.ts';
import { lenderTalk } from './words/lender-talk.ts';

const JOURNAL = 'journal.jsonl';

export async function run({ files, flags, terminal, signal, program }: Invocation): Promise<ExitCode> {
  const file = files[0]!;
  const loaded = loadStudy(file, { set: flags.set, columns: SCORE_COLUMNS });
  const lead = { ...loaded, study: { ...loaded.study, name: whatIfName(loaded.study.name, flags.set) } };
  const drafts = draftsOf(lead, flags.cell ?? null);
  const plan = await planOf(lead, drafts, signal);
  const target = targetOf(lead);
  const hiring = hiringOf(flags, terminal, { lead, drafts, program });
  if (flags.cancel === true) return await cancelled(hiring, terminal);
  announce(terminal, lead, drafts, plan);
  const folder = openRunFolder({
    out: flags.out,
    name: lead.study.name,
    overwrite: flags.overwrite,
    resumes: JOURNAL,
  });
  const tally = newTally({ lead, drafts, target });
  const journal = folder.file(JOURNAL);
  const task = await withLenders(hiring, lenderTalk(terminal), async (hired): Promise<OvernightTask> => {
    const own = hired === null ? openPool(flags.threads) : null;
    const pool = hired?.pool ?? (own as NonNullable<typeof own>);
    const watching = watch(terminal, flags, lead, hired);
    const doing: OvernightTask = { lead, drafts, plan, target, journal, program, pool, signal, ...watching };
    try {
      await runOvernight(doing, tally);
      return doing;
    } catch (error) {
      if (signal.aborted) {
        watching.finish();
        const [unfinished] = write(folder, terminal, doing, tally, flags.set).notes;
        if (unfinished !== undefined) terminal.warning(plainText(unfinished));
        terminal.warning(
          `To go on: ${typed()} overnight ${shellFile(file)}${goOnFlags(flags, hired)} --out ${shellFile(folder.path)}`,
        );
        if (hired !== null)
          terminal.warning(
            'What is on the server stays there for lenders; --cancel in place of --out takes it away.',
          );
      }
      throw error;
    } finally {
      watching.finish();
      await own?.close();
    }
  });
  const summary = write(folder, terminal, task, tally, flags.set);
  terminal.answer(
    flags.json
      ? jsonText({
          ...rankingDocument(task, tally, summary),
          ...(flags.set.length === 0 ? {} : { changed: flags.set }),
        })
      : answer(task, tally, summary, terminal.colour),
  );
  for (const note of summary.notes) terminal.message(plainText(note));
  terminal.message(`Page: ${folder.file('overnight.html')}`);
  terminal.message('ranking.csv lies beside it.');
  // Drafts that failed are marked in the ranking; without any that has a score there is none.
  return summary.ranking.some((one) => one.score !== null) ? exitCodes.done : exitCodes.unsettled;
}

/** What a study asks of lenders; null: it runs on this machine. */
function hiringOf(
  flags: Flags,
  terminal: Terminal,
  of: Pick<OvernightTask, 'lead' | 'drafts' | 'program'>,
): Hire | null {
  if (flags.over === undefined) return null;
  const { kind, name, program, ...study } = journalOf(of);
  return {
    over: flags.over,
    fingerprint: studyFingerprint({ kind, program, ...study }),
    kind,
    name,
    program,
    parcelOf: (job) => parcelOf(of, job),
    say: (text) => terminal.warning(plainText(text)),
  };
}

/** The speed whose lead is shown: the case's target where it is run, the middle of the speeds otherwise [rpm]. */
function targetOf({ study, base }: OpenedStudy): number {
  const { speeds } = study;
  const { targetSpeed } = base.run;
  const inside =
    targetSpeed !== null && targetSpeed >= (speeds[0] ?? 0) && targetSpeed <= (speeds.at(-1) ?? 0);
  return inside ? targetSpeed : speeds[Math.floor(speeds.length / 2)]!;
}

function announce(terminal: Terminal, { study, base }: OpenedStudy, drafts: Drafts, plan: Plan): void {
  for (const warning of base.warnings) terminal.warning(plainText(warning));
  const { speeds, screen } = study;
  const parts = [
    `${plainText(study.name)}: ${drafts.count} drafts at ${speeds.length} ${speeds.length === 1 ? 'speed' : 'speeds'}`,
  ];
  if (plan.outside > 0) parts.push(`${part(plan.outside, plan)} outside the constraints`);
  if (plan.impossible > 0) parts.push(`${part(plan.impossible, plan)} that cannot be built`);
  terminal.message(`${parts.join(', ')}. Score: ${plainText(scoreText(study.score))}.`);
  if (screen !== null) {
    const kept = Math.ceil(screen.keep * 100);
    terminal.message(
      `First a screen at ${Number((1000 * screen.cell).toFixed(2))} mm cells and ${screen.speeds.length} speeds; ` +
        (screen.check ? 'all are refined, to check it.' : `the best ${kept} % are refined.`),
    );
  }
}

function part(count: number, plan: Plan): string {
  return plan.looked === plan.drafts
    ? String(count)
    : `about ${Math.round((count / plan.looked) * plan.drafts)}`;
}

/** Follows a study on the terminal. */
function watch(
  terminal: Terminal,
  flags: Flags,
  { study }: OpenedStudy,
  hired: Hired | null,
): { readonly watcher: Watcher; readonly finish: () => void } {
  let progress: ReturnType<Terminal['progress']> | null = null;
  let following = '';
  let before = 0;
  return {
    watcher: {
      opened(done, dropped) {
        if (dropped !== '') terminal.warning(dropped);
        if (done > 0) terminal.message(`Going on with a journal of ${done} finished drafts.`);
      },
      timed(milliseconds, left) {
        if (left === 0 || hired !== null) return;
        const threads = Math.min(flags.threads, left);
        terminal.message(
          `One draft took ${durationText(milliseconds)}; ${left} more on ${threads} ${threads === 1 ? 'thread' : 'threads'} ` +
            `take about ${durationText((milliseconds * left) / threads)}.`,
        );
      },
      advanced(pass, done, total, best) {
        if (following !== pass) {
          progress?.finish();
          following = pass;
          before = done;
          const label = pass === 'screen' ? 'screen' : study.screen === null ? 'overnight' : 'refine';
          progress = terminal.progress({ label, things: 'drafts', total, before });
        }
        progress?.advance(
          done,
          [
            ...(hired === null ? [] : [hired.book.text]),
            ...(best === null ? [] : [`best so far ${best.name}: ${best.score.toPrecision(5)}`]),
          ].join('; ') || undefined,
        );
      },
    },
    finish: () => progress?.finish(),
  };
}

function write(
  folder: RunFolder,
  terminal: Terminal,
  task: OvernightTask,
  tally: Tally,
  set: readonly string[],
): OvernightSummary {
  const summary = overnightSummary(task, tally);
  const { columns, rows } = rankingTable(task, tally, summary);
  folder.write('ranking.csv', csvText(columns, rows));
  const page = overnightPageResult(task, tally, summary);
  folder.write('overnight.html', overnightPage(page, pageAssets('overnight')));
  const changed = set.length === 0 ? {} : { changed: set };
  listRun(
    folder,
    'overnight.html',
    { ...overnightCard(page), ...changed },
    { terminal, program: task.program },
  );
  return summary;
}

/** The flags that belong to what a study is. */
function goOnFlags(flags: Flags, hired: Hired | null): string {
  const cell = flags.cell === undefined ? '' : ` --cell ${Number((1000 * flags.cell).toPrecision(6))}mm`;
  const over = hired === null ? '' : ` --over ${shellWord(hired.shown)}`;
  return flags.set.map((one) => ` --set ${shellWord(one)}`).join('') + cell + over;
}

/** Drafts of the ranking that the terminal shows. */
const SHOWN = 10;

function answer({ drafts }: OvernightTask, tally: Tally, summary: OvernightSummary, colour: boolean): string {
  const ranked = summary.ranking.filter((one) => one.rank !== null);
  const { name, unit } = summary.score;
  const columns: Column<RankedDraft>[] = [
    { header: 'Rank', text: (one) => String(one.rank) },
    { header: 'draft', align: 'left', text: (one) => one.name },
    {
      header: name.length > 12 ? 'score' : name,
      ...(unit === '' ? {} : { unit }),
      text: (one) => (one.score ?? Number.NaN).toPrecision(5),
    },
    ...drafts.quantities.map((quantity, k) => ({
      header: quantity.name,
      ...(quantity.unit === '' ? {} : { unit: quantity.unit }),
      optional: k > 3,
      text: (one: RankedDraft) => String(Number((one.values[k] ?? Number.NaN).toPrecision(4))),
    })),
    ...tally.readings.slice(0, 3).map((reading, k) => ({
      header: reading.name,
      unit: reading.unit,
      optional: true,
      text: (one: RankedDraft) => one.readings[k]?.toFixed(reading.decimals) ?? '-',
    })),
    {
      header: 'misses',
      align: 'left',
      optional: true,
      text: (one) => one.misses.join(', '),
    },
  ];
  const shown = ranked.slice(0, SHOWN);
  const most = [...summary.importance].sort((a, b) => b.share - a.share)[0];
  const more = ranked.length > SHOWN ? `The best ${SHOWN} of ${ranked.length}.\n` : '';
  const depends =
    most === undefined
      ? ''
      : `The score depends most on ${plainText(most.name)}: ${Math.round(100 * most.share)} % of its variation.\n`;
  if (shown.length === 0) return 'No draft has a score.\n';
  return `${more}Score: ${plainText(name)}${unit === '' ? '' : ` [${unit}]`}.\n\n${tableText(columns, shown, { colour, marked: (one) => one.rank === 1 })}\n${depends}`;
}
