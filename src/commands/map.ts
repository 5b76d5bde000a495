/** `echocone map`: speed over exhaust duration; a table, a document and a page. Resumable by its journal. */

import { renameSync } from 'node:fs';
import { mapPage } from '../../plots/pages/map-page.ts';
import { meshText } from '../../plots/pages/mesh-words.ts';
import { mapCard } from '../../plots/pages/run-cards.ts';
import { asPrinted } from '../../plots/theme/numbers.ts';
import { caseOf, type OpenedFile, openFile } from '../case/load.ts';
import { sentCase } from '../case/sent-case.ts';
import { mapAnswer } from '../findings/answers/map.ts';
import { COLUMNS, type SweepRow } from '../findings/row.ts';
import { isFailedStudy } from '../findings/settled.ts';
import {
  journalOf,
  type KeptGroup,
  type MapGroup,
  type MapPlan,
  type MapResult,
  mapGroups,
  mapResult,
  planMap,
  pointsIn,
  runMap,
} from '../study/map/map.ts';
import { hireForGroups } from '../study/over/groups.ts';
import { type Hire, withLenders } from '../study/over/hired.ts';
import { openKeptJournal } from '../study/work/journal.ts';
import { openPool } from '../study/work/pool.ts';
import { crankOf, travelForDuration } from '../timing/crank.ts';
import { csvText } from './frame/csv.ts';
import { type ExitCode, exitCodes, UsageError } from './frame/exit-codes.ts';
import { jsonText } from './frame/json.ts';
import { pageAssets } from './frame/page-assets.ts';
import { plainText } from './frame/plain-text.ts';
import { openRunFolder } from './frame/run-folder.ts';
import { listRun } from './frame/run-index.ts';
import { shellFile } from './frame/shell-word.ts';
import type { Terminal } from './frame/terminal.ts';
import { typed } from './frame/typed.ts';
import type { Invocation } from './frame/verb.ts';
import { whatIfName } from './frame/what-if-name.ts';
import { cancelled } from './words/cancelled.ts';
import { lenderTalk } from './words/lender-talk.ts';
import { keptWords, type MapFinding, mapFindings, mapText } from './words/map-text.ts';

const JOURNAL = 'journal.jsonl';
const REPLACED = 'journal-replaced.jsonl';

export async function run({ files, flags, terminal, signal, program }: Invocation): Promise<ExitCode> {
  const file = files[0]!;
  const opened = openFile(file);
  const subject = caseOf(opened, flags.set);
  for (const warning of subject.warnings) terminal.warning(plainText(warning));
  const plan = planMap({ ...subject, name: whatIfName(subject.name, flags.set) }, flags, program);
  for (const { durationDeg, reason } of plan.leftOut)
    terminal.warning(`${durationDeg} deg is left out: ${plainText(reason)}.`);
  if (plan.durations.length === 0)
    throw new UsageError('None of these exhaust durations can be cut; name others with --duration.');
  const hiring = hiringOf(plan, opened, flags, terminal);
  if (flags.cancel === true) return await cancelled(hiring?.([]) ?? null, terminal);
  const folder = openRunFolder({
    out: flags.out,
    name: `${subject.name} map`,
    overwrite: flags.overwrite,
    resumes: JOURNAL,
  });
  const result = await computed(plan, { path: folder.file(JOURNAL), hiring, flags, terminal, signal });
  folder.write('map.csv', mapCsv(result));
  const changed = flags.set.length === 0 ? {} : { changed: flags.set };
  const document = { ...result, ...changed };
  folder.write('map.json', jsonText(document));
  const crank = crankOf(subject.engine);
  const answer = mapAnswer(result.points, {
    targetSpeed: subject.run.targetSpeed,
    drawnDurationDeg: plan.drawnDurationDeg,
    roofTravel: (durationDeg) => travelForDuration(crank, durationDeg),
  });
  const { engine, pipe } = result.case;
  const page = {
    program,
    name: result.case.name,
    note: `${result.case.note} ${asPrinted(keptWords(result))} ${meshText(result.case.run.cell)}`.trim(),
    best: answer?.best ?? null,
    findings: answer === null ? [] : mapFindings(answer).map(asPage),
    engine: engine.name,
    pipe: pipe.name,
    outline: result.outline,
    points: result.points,
    ownDuration: plan.drawnDurationDeg,
    failures: result.failures,
  };
  folder.write('map.html', mapPage(page, pageAssets('map')));
  listRun(folder, 'map.html', { ...mapCard(page), ...changed }, { terminal, program });
  terminal.answer(flags.json ? jsonText(document) : mapText(result, answer, terminal.colour));
  terminal.message(`Page: ${folder.file('map.html')}`);
  terminal.message(`map.csv and map.json lie beside it. Next: ${typed()} sweep ${shellFile(file)}`);
  const rows = result.points.map(({ row }) => row);
  return isFailedStudy([rows]) ? exitCodes.unsettled : exitCodes.done;
}

function asPage(finding: MapFinding): MapFinding {
  return { ...finding, label: asPrinted(finding.label), text: asPrinted(finding.text) };
}

/** What a map asks of lenders, once it is known which groups are to be done. */
type Hiring = (open: readonly MapGroup[]) => Hire;

/** Null: it runs on this machine. */
function hiringOf(
  plan: MapPlan,
  opened: OpenedFile,
  flags: Invocation['flags'],
  terminal: Terminal,
): Hiring | null {
  const { over } = flags;
  if (over === undefined) return null;
  const { speeds: runSpeeds, cell } = plan.subject.run;
  const list = { of: journalOf(plan), sent: sentCase(opened, flags.set), runSpeeds, cell };
  const say = (text: string): void => terminal.warning(plainText(text));
  return (open) => hireForGroups({ ...list, groups: open }, { over, say });
}

async function computed(
  plan: MapPlan,
  use: {
    readonly path: string;
    readonly hiring: Hiring | null;
    readonly flags: Invocation['flags'];
    readonly terminal: Terminal;
    readonly signal: AbortSignal;
  },
): Promise<MapResult> {
  const { flags, terminal, signal } = use;
  const groups = mapGroups(plan);
  const total = plan.durations.length * plan.subject.run.speeds.length;
  // Another study's journal is set aside and not removed: whatever it is of, hours may stand in it.
  const setAside = (): void => renameSync(use.path, use.path.replace(JOURNAL, REPLACED));
  const { journal, done } = openKeptJournal<KeptGroup>(
    use.path,
    journalOf(plan),
    flags.overwrite ? setAside : null,
  );
  if (journal.dropped !== '') terminal.warning(journal.dropped);
  const before = pointsIn(groups, done);
  terminal.message(
    `${total} points: ${plan.subject.run.speeds.length} speeds at ${plan.durations.length} durations, ` +
      `cells of ${1000 * plan.subject.run.cell} mm${before === 0 ? '' : `; ${before} are done already`}.`,
  );
  const open = groups.filter(({ draft }) => !done.has(draft));
  await withLenders(use.hiring?.(open) ?? null, lenderTalk(terminal), async (hired) => {
    const own = hired === null ? openPool(Math.min(flags.threads, groups.length)) : null;
    const pool = hired?.pool ?? (own as NonNullable<typeof own>);
    const progress = terminal.progress({ label: 'map', things: 'points', total, before });
    try {
      await runMap(groups, done, {
        pool,
        journal,
        signal,
        advance: (points) => progress.advance(points, hired?.book.text),
      });
    } finally {
      progress.finish();
      await own?.close();
      journal.close();
    }
  });
  return mapResult(plan, groups, done);
}

function mapCsv(result: MapResult): string {
  return csvText(
    ['duration_deg', ...COLUMNS.map((c) => c.name)],
    result.points.map(({ durationDeg, row }): SweepRow & { duration_deg: number } => ({
      duration_deg: durationDeg,
      ...row,
    })),
  );
}
