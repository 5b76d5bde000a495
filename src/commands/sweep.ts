/** `echocone sweep`: the running engine over a range of speeds; a table, a document and a page. */

import { sweepCard } from '../../plots/pages/run-cards.ts';
import { sweepPage } from '../../plots/pages/sweep-page.ts';
import { caseOf, describeInputs, type OpenedFile, openFile } from '../case/load.ts';
import type { SweepResult } from '../engine/read/result.ts';
import type { AdviceReport } from '../findings/answers/advice.ts';
import { type BandsAnswer, bandsAnswer, bandsDocument } from '../findings/answers/bands.ts';
import type { WeatherEffect } from '../findings/answers/weather.ts';
import { highest } from '../findings/curve.ts';
import { COLUMNS } from '../findings/row.ts';
import { isWhole } from '../findings/settled.ts';
import { bandDocument, workingBand } from '../findings/working-band.ts';
import type { Case } from '../model/case.ts';
import { computedMembers } from '../study/ensemble/computed-members.ts';
import { widthDrivers } from '../study/ensemble/drivers.ts';
import { membersCsv } from '../study/ensemble/members-file.ts';
import { runAdvice } from '../study/sweep/advice.ts';
import { planAdvice } from '../study/sweep/advice-plan.ts';
import { runSweeps } from '../study/sweep/run-sweeps.ts';
import { assumedVariants, type Moves, movesAt } from '../study/sweep/sensitivity.ts';
import { type KeptGroups, openKeptGroups } from '../study/sweep/sweep-journal.ts';
import { weatherEffects, weatherVariants } from '../study/sweep/weather.ts';
import { openPool, type Pool } from '../study/work/pool.ts';
import { withRun } from '../study/work/run-settings.ts';
import { csvText } from './frame/csv.ts';
import { type ExitCode, exitCodes } from './frame/exit-codes.ts';
import { jsonText } from './frame/json.ts';
import { pageAssets } from './frame/page-assets.ts';
import { plainText } from './frame/plain-text.ts';
import { openRunFolder, type RunFolder } from './frame/run-folder.ts';
import { listRun } from './frame/run-index.ts';
import { shellFile } from './frame/shell-word.ts';
import { typed } from './frame/typed.ts';
import type { Invocation } from './frame/verb.ts';
import { whatIfName } from './frame/what-if-name.ts';
import { adviceDocument } from './words/advice-text.ts';
import { cancelled } from './words/cancelled.ts';
import { hiringOf, membersUse, type PlannedMembers, plannedMembers } from './words/members-asked.ts';
import { bandsCsv } from './words/members-csv.ts';
import { inputsWithMoves, movesText } from './words/moves-text.ts';
import { shortCsv } from './words/short-csv.ts';
import { sweepText } from './words/sweep-text.ts';
import { weatherText } from './words/weather-text.ts';

/** Not the name that long studies give theirs, so that a sweep never takes theirs away. */
const JOURNAL = 'sweep-journal.jsonl';
const MEMBERS_JOURNAL = 'members-journal.jsonl';

export async function run(invocation: Invocation): Promise<ExitCode> {
  const { flags, terminal } = invocation;
  if (flags.cancel === true) return await cancelled(hiringOf(readCase(invocation).planned, flags), terminal);
  // Threads start while the case is read, and are gone before the page is written.
  const pool = openPool(flags.threads);
  let ran: Ran;
  try {
    ran = await runOn(pool, invocation);
  } finally {
    await pool.close();
  }
  return written(ran, invocation);
}

/** What a sweep is asked for: the case as set, and the members of its bands; null: none. */
interface Asked {
  readonly opened: OpenedFile;
  readonly subject: Case;
  readonly planned: PlannedMembers | null;
}

function readCase({
  files,
  flags,
  terminal,
  program,
}: Pick<Invocation, 'files' | 'flags' | 'terminal' | 'program'>): Asked {
  const opened = openFile(files[0]!);
  const subject = withRun(caseOf(opened, flags.set), flags);
  for (const warning of subject.warnings) terminal.warning(plainText(warning));
  const planned = plannedMembers(flags, [{ name: subject.name, opened, set: flags.set, subject }], program);
  for (const text of planned?.warnings ?? []) terminal.warning(plainText(text));
  return { opened, subject, planned };
}

/** A sweep that has run, with where its files go and the journal that goes once they stand. */
interface Ran extends Asked {
  readonly folder: RunFolder;
  readonly kept: KeptGroups;
  readonly swept: Swept;
}

async function runOn(pool: Pool, invocation: Invocation): Promise<Ran> {
  const { flags, terminal, signal, program } = invocation;
  const asked = readCase(invocation);
  const { subject } = asked;
  const folder = openRunFolder({
    out: flags.out,
    name: subject.name,
    overwrite: flags.overwrite,
    resumes: JOURNAL,
  });
  const kept = openKeptGroups(folder.file(JOURNAL), { subject, program }, flags.overwrite);
  const use = { ...asked, pool, kept, folder, flags, terminal, signal, program };
  try {
    return { ...asked, folder, kept, swept: await sweptCase(subject, use) };
  } catch (error) {
    if (signal.aborted) terminal.warning(`To go on: the same command with --out ${shellFile(folder.path)}`);
    throw error;
  } finally {
    kept.close();
  }
}

/** Writes the files of a sweep and says what came of it. */
function written(
  { subject, planned, folder, kept, swept }: Ran,
  { files, flags, terminal, program }: Invocation,
): ExitCode {
  const { advice, moves, weather, sure } = swept;
  const result = whatIf(swept.result, flags.set);
  const changed = flags.set.length === 0 ? {} : { changed: flags.set };
  const document = {
    ...result,
    ...changed,
    band: bandDocument(workingBand(result.rows)),
    ...(advice === null ? {} : adviceDocument(advice)),
    ...(moves === null ? {} : { moves, weather }),
    ...(sure === null ? {} : bandsDocument(sure.answer)),
  };
  folder.write('sweep.csv', sweepCsv(result));
  folder.write('sweep-short.csv', shortCsv(result.rows));
  folder.write('sweep.json', jsonText(document));
  const inputs = inputsWithMoves(describeInputs(subject), moves?.of ?? []);
  const extras = {
    inputs,
    ...(advice === null ? {} : { advice }),
    ...(moves === null ? {} : { movesAt: moves, weather }),
    ...(sure === null ? {} : { sure: sure.answer }),
  };
  if (sure !== null && planned !== null) {
    folder.write('bands.csv', bandsCsv(sure.answer.bands));
    folder.write('members.csv', membersCsv(planned.ensemble.drafts[0]!.members));
  }
  folder.write('sweep.html', sweepPage(result, pageAssets('sweep'), extras));
  listRun(folder, 'sweep.html', { ...sweepCard(result), ...changed }, { terminal, program });
  kept.remove();
  sure?.remove();
  terminal.answer(
    flags.json
      ? jsonText(document)
      : sweepText(result, { advice, sure: sure?.answer ?? null }, terminal.colour) +
          (moves === null ? '' : movesText(moves) + weatherText(weather, moves.speedRpm)),
  );
  terminal.message(`Page: ${folder.file('sweep.html')}`);
  terminal.message(
    `sweep.csv, sweep.json${sure === null ? '' : ', bands.csv, members.csv'} and, rounded, sweep-short.csv lie beside it.`,
  );
  if (result.rows.length > 0) terminal.message(`Next: ${typed()} board ${shellFile(files[0]!)}`);
  return isWhole(result.rows, result.failures) ? exitCodes.done : exitCodes.unsettled;
}

/** The result under the name of a what-if, so that page, terminal and index tell it from its base. */
function whatIf(result: SweepResult, set: readonly string[]): SweepResult {
  return { ...result, case: { ...result.case, name: whatIfName(result.case.name, set) } };
}

interface Swept {
  readonly result: SweepResult;
  /** Null: not wanted. */
  readonly advice: AdviceReport | null;
  /** Null: not asked for. */
  readonly moves: Moves | null;
  /** Empty with it. */
  readonly weather: readonly WeatherEffect[];
  /** How sure it is, and what takes the members' journal away; null: not asked for. */
  readonly sure: { readonly answer: BandsAnswer; readonly remove: () => void } | null;
}

/** Runs a case's speeds on worker threads, then what its inputs move where that is asked for. */
async function sweptCase(
  subject: Case,
  use: Pick<Invocation, 'flags' | 'terminal' | 'signal' | 'program'> & {
    pool: Pool;
    opened: OpenedFile;
    kept: KeptGroups;
    planned: PlannedMembers | null;
    folder: RunFolder;
  },
): Promise<Swept> {
  const { pool, opened, kept, flags, terminal, signal, program } = use;
  const total = subject.run.speeds.length;
  const before = speedsIn(kept);
  if (kept.dropped !== '') terminal.warning(kept.dropped);
  if (before > 0) terminal.message(`Going on: ${before} of ${total} speeds are done already.`);
  const progress = terminal.progress({ label: 'sweep', things: 'speeds', total, before });
  let result: SweepResult;
  try {
    const advance = (speeds: number): void => progress.advance(speeds);
    [result] = (await runSweeps([subject], { pool, program, signal, advance, kept })) as [SweepResult];
  } finally {
    progress.finish();
  }
  const { planned } = use;
  const sure = planned === null ? null : await sureOf(result, { ...use, planned });
  const advice = flags.advice === false ? null : await advised(result, use);
  const speedRpm = speedOfInterest(result);
  if (flags.moves !== true || speedRpm === null) return { result, advice, moves: null, weather: [], sure };
  const weather = weatherVariants(opened, flags.set);
  const study = { subject, variants: [...assumedVariants(opened, flags.set), ...weather] };
  const inputs = terminal.progress({
    label: `inputs at ${speedRpm} rpm`,
    things: 'changes',
    total: study.variants.length + 1,
  });
  try {
    const advance = (changes: number): void => inputs.advance(changes);
    const { of, ...where } = await movesAt(speedRpm, study, { pool, signal, advance });
    const ofWeather = of.slice(of.length - weather.length);
    return {
      result,
      advice,
      moves: { ...where, of: of.slice(0, of.length - weather.length) },
      weather: weatherEffects(ofWeather, result.rows, speedRpm),
      sure,
    };
  } finally {
    inputs.finish();
  }
}

/** Runs the members and reads out how sure the sweep is. */
async function sureOf(
  result: SweepResult,
  use: Pick<Invocation, 'flags' | 'terminal' | 'signal'> & {
    pool: Pool;
    planned: PlannedMembers;
    folder: RunFolder;
  },
): Promise<NonNullable<Swept['sure']>> {
  const { planned, folder } = use;
  const { ensemble } = planned;
  const [draft] = ensemble.drafts;
  const { sweeps, remove } = await computedMembers(ensemble, membersUse(folder.file(MEMBERS_JOURNAL), use));
  const { speeds, targetSpeed } = result.case.run;
  const members = sweeps[0] ?? [];
  const answer = bandsAnswer(members, {
    speeds,
    targetSpeed,
    cell: ensemble.cell,
    inputs: draft?.inputs ?? [],
    drivers: draft === undefined ? [] : widthDrivers(draft.members, members, speedOfInterest(result)),
  });
  return { answer, remove };
}

/** Changes that were run before they are advised. */
async function advised(
  result: SweepResult,
  {
    pool,
    opened,
    flags,
    terminal,
    signal,
  }: Pick<Invocation, 'flags' | 'terminal' | 'signal'> & {
    pool: Pool;
    opened: OpenedFile;
  },
): Promise<AdviceReport> {
  const plan = planAdvice(opened, flags.set, result);
  if (plan === null) return { advice: [], none: [] };
  terminal.message('Computing changes to advise (--no-advice skips it).');
  const total = plan.changes;
  const progress = terminal.progress({ label: 'advice', things: 'changes', total });
  try {
    const advance = (changes: number): void => progress.advance(changes);
    return await runAdvice(plan, { pool, signal, advance });
  } finally {
    progress.finish();
  }
}

function speedsIn({ done }: KeptGroups): number {
  return [...done.values()].reduce((sum, { records, failures }) => sum + records.length + failures.length, 0);
}

/** The target where it was swept, or the speed of most torque [rpm]. */
function speedOfInterest({ rows, case: { run } }: SweepResult): number | null {
  const target = rows.find((row) => row.speed_rpm === run.targetSpeed) ?? highest(rows, 'torque_nm');
  return target?.speed_rpm ?? null;
}

export function sweepCsv(result: SweepResult): string {
  return csvText(
    COLUMNS.map((c) => c.name),
    result.rows,
  );
}
