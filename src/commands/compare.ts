/** `echocone compare`: two to eight drafts, measured against the first; a table, a document and a page. */

import { comparePage } from '../../plots/pages/compare-page.ts';
import { compareCard } from '../../plots/pages/run-cards.ts';
import { caseOf, openFile } from '../case/load.ts';
import type { SweepResult } from '../engine/read/result.ts';
import { bandsAnswer, bandsDocument } from '../findings/answers/bands.ts';
import { compareAnswer, MOST_DRAFTS } from '../findings/answers/compare.ts';
import { type DraftChances, draftChances } from '../findings/member-chances.ts';
import { COLUMNS } from '../findings/row.ts';
import { isFailedStudy } from '../findings/settled.ts';
import { compareDocument } from '../study/compare/document.ts';
import { caseOfDraft, casesToSweep, type Draft, draftsSoFar, sweptDrafts } from '../study/compare/drafts.ts';
import { finishedSweep, sweepFileOf } from '../study/compare/finished-sweep.ts';
import { unlikeNotes } from '../study/compare/unlike.ts';
import { type ComputedMembers, computedMembers } from '../study/ensemble/computed-members.ts';
import { joinedMembers } from '../study/ensemble/members.ts';
import { membersCsv } from '../study/ensemble/members-file.ts';
import { type KeptGroups, openGroupsOf } from '../study/sweep/sweep-journal.ts';
import { cautionsOf } from '../study/work/cautions.ts';
import { openPool } from '../study/work/pool.ts';
import { withRun } from '../study/work/run-settings.ts';
import { csvText } from './frame/csv.ts';
import { shortNames, uniqueNames } from './frame/draft-names.ts';
import { type ExitCode, exitCodes, UsageError } from './frame/exit-codes.ts';
import { jsonText } from './frame/json.ts';
import { pageAssets } from './frame/page-assets.ts';
import { plainText } from './frame/plain-text.ts';
import { openRunFolder, type RunFolder } from './frame/run-folder.ts';
import { listRun } from './frame/run-index.ts';
import { shellFile } from './frame/shell-word.ts';
import { typed } from './frame/typed.ts';
import type { Invocation } from './frame/verb.ts';
import { whatIfName } from './frame/what-if-name.ts';
import { cancelled } from './words/cancelled.ts';
import { compareText } from './words/compare-text.ts';
import { hiringOf, membersUse, type PlannedMembers, plannedMembers } from './words/members-asked.ts';
import { draftBandsCsv } from './words/members-csv.ts';

/** Not the name that other studies give theirs. */
const JOURNAL = 'compare-journal.jsonl';
const MEMBERS_JOURNAL = 'members-journal.jsonl';

export async function run(invocation: Invocation): Promise<ExitCode> {
  const { flags, terminal, signal, program } = invocation;
  const drafts = draftsOf(invocation);
  const band = flags.band === undefined ? null : covered(flags.band, drafts);
  const cases = casesToSweep(drafts);
  const planned = plannedMembers(flags, membersOf(drafts, flags), program);
  for (const text of planned?.warnings ?? []) terminal.warning(plainText(text));
  if (flags.cancel === true) return await cancelled(hiringOf(planned, flags), terminal);
  const folder = openRunFolder({
    out: flags.out,
    name: `compare ${drafts[0]?.name}`,
    overwrite: flags.overwrite,
    resumes: JOURNAL,
  });
  const what = { kind: 'compare', name: 'compare', program, what: cases };
  const kept = openGroupsOf(folder.file(JOURNAL), what, flags.overwrite);
  const total = cases.reduce((sum, { run: of }) => sum + of.speeds.length, 0);
  const before = speedsIn(kept);
  if (kept.dropped !== '') terminal.warning(kept.dropped);
  if (before > 0) terminal.message(`Going on: ${before} of ${total} speeds are done already.`);
  const pool = openPool(Math.max(1, Math.min(flags.threads, total)));
  const progress = terminal.progress({ label: 'compare', things: 'speeds', total, before });
  const told = { invocation, drafts, band, folder };
  let sweeps: readonly SweepResult[];
  let members: ComputedMembers | null = null;
  try {
    const advance = (speeds: number): void => progress.advance(speeds);
    sweeps = await sweptDrafts(drafts, { pool, program, kept, signal, advance });
    progress.finish();
    if (planned !== null)
      members = await computedMembers(
        planned.ensemble,
        membersUse(folder.file(MEMBERS_JOURNAL), { flags, terminal, signal, pool }),
      );
  } catch (error) {
    if (signal.aborted) {
      progress.finish();
      if (kept.done.size > 0) write(told, draftsSoFar(drafts, { program, kept }));
      terminal.warning(`To go on: the same command with --out ${shellFile(folder.path)}`);
    }
    throw error;
  } finally {
    progress.finish();
    kept.close();
    await pool.close();
  }
  const sure = planned === null || members === null ? null : { planned, sweeps: members.sweeps };
  const { answer, document, names, notes, chances } = write(told, sweeps, sure);
  kept.remove();
  members?.remove();
  const { colour } = terminal;
  terminal.answer(
    flags.json ? jsonText(document) : compareText(answer, { names, sweeps, notes, chances, colour }),
  );
  terminal.message(`Page: ${folder.file('compare.html')}`);
  const more = planned === null ? '' : ', bands.csv, members.csv';
  terminal.message(`compare.csv${more} and compare.json lie beside it.`);
  const [first] = drafts;
  if (first?.kind === 'case') terminal.message(`Next: ${typed()} map ${shellFile(first.file)}`);
  return isFailedStudy(sweeps.map(({ rows }) => rows)) ? exitCodes.unsettled : exitCodes.done;
}

/** The drafts that are named: cases with what changes them, a case and its base, or sweeps that are finished. */
function draftsOf({ files, flags, terminal }: Invocation): readonly Draft[] {
  const { set, against } = flags;
  if (against !== undefined) {
    const [file = ''] = files;
    if (files.length !== 1 || set.length === 0 || sweepFileOf(file) !== null)
      throw new UsageError('--against base takes one case, and with --set what is changed of it.');
    return [[], set].map((of) => caseDraft(file, of, flags, terminal));
  }
  if (files.length < 2 || files.length > MOST_DRAFTS)
    throw new UsageError(
      `Compare takes two to ${MOST_DRAFTS} drafts; ${files.length} named. One case is held against itself with --set ` +
        'and --against base.',
    );
  return files.map((file): Draft => {
    const path = sweepFileOf(file);
    if (path === null) return caseDraft(file, set, flags, terminal);
    const sweep = finishedSweep(path);
    if (set.length > 0 || flags.speeds !== undefined || flags.cell !== undefined)
      terminal.warning(`${plainText(file)} is finished: --set, --rpm and --cell do not change it.`);
    return { kind: 'finished', file, name: sweep.case.name, sweep };
  });
}

function caseDraft(
  file: string,
  set: readonly string[],
  flags: Invocation['flags'],
  terminal: Invocation['terminal'],
): Draft {
  const opened = openFile(file);
  const loaded = withRun(caseOf(opened, set), flags);
  const name = whatIfName(loaded.name, set);
  for (const warning of loaded.warnings) terminal.warning(plainText(`${name}: ${warning}`));
  return { kind: 'case', file, name, subject: { ...loaded, name }, opened, set };
}

const speedsIn = ({ done }: KeptGroups): number =>
  [...done.values()].reduce((sum, { records, failures }) => sum + records.length + failures.length, 0);

/** A band that all drafts cover. @throws UsageError */
function covered(band: NonNullable<Invocation['flags']['band']>, drafts: readonly Draft[]) {
  for (const draft of drafts) {
    const { speeds } = caseOfDraft(draft).run;
    const [low, high] = [speeds[0] ?? 0, speeds.at(-1) ?? 0];
    if (band.from < low || band.to > high)
      throw new UsageError(
        `--band ${band.from}:${band.to} reaches beyond the speeds of ${plainText(draft.name)}, ${low} to ${high} rpm. ` +
          'Name a band within them, or more speeds with --rpm.',
      );
  }
  return band;
}

interface Told {
  readonly invocation: Invocation;
  readonly drafts: readonly Draft[];
  readonly band: { readonly from: number; readonly to: number } | null;
  readonly folder: RunFolder;
}

/** Judges what there is and writes table, document and page of it. */
function write(
  { invocation, drafts, band, folder }: Told,
  sweeps: readonly SweepResult[],
  sure: SureDrafts | null = null,
) {
  const { flags, terminal, program } = invocation;
  const names = uniqueNames(drafts.map(({ name }) => name));
  const short = flags.against === undefined ? shortNames(names) : againstBase(names);
  const targetSpeed = sweeps[0]?.case.run.targetSpeed ?? null;
  const rowsOf = sweeps.map(({ rows, case: of }, k) => ({
    name: short[k] ?? '',
    rows,
    asked: of.run.speeds,
  }));
  const answer = compareAnswer(rowsOf, targetSpeed, band);
  const notes = notesOf(sweeps, short);
  folder.write('compare.csv', compareCsv(names, sweeps));
  const changed = flags.set;
  const document = compareDocument({
    program,
    answer,
    drafts: sweeps.map((sweep, k) => ({ name: names[k] ?? '', file: drafts[k]?.file ?? '', sweep })),
    changed,
    notes,
  });
  const bands = sure === null ? [] : bandsOf(sure, { names: short, targetSpeed });
  const chances = sure === null ? [] : chancesOf(sure, { names: short, targetSpeed, band: answer.band });
  const told = sure === null ? document : { ...document, bands, chances };
  folder.write('compare.json', jsonText(told));
  if (sure !== null) {
    folder.write('bands.csv', draftBandsCsv(bands.map((one, k) => ({ name: names[k] ?? '', bands: one }))));
    folder.write('members.csv', membersCsv(joinedMembers(sure.planned.ensemble.drafts)));
  }
  const named = sweeps.map((sweep, k) => ({ name: short[k]!, sweep }));
  const page = { program, drafts: named, targetSpeed, answer, notes, chances };
  folder.write('compare.html', comparePage(page, pageAssets('compare')));
  listRun(
    folder,
    'compare.html',
    { ...compareCard(page), ...(changed.length === 0 ? {} : { changed }) },
    { terminal, program },
  );
  return { answer, document: told, names, notes, chances };
}

/** Drafts of which members are run. @throws UsageError where one is finished: it cannot be run again */
function membersOf(drafts: readonly Draft[], { bands, members }: Invocation['flags']) {
  const isAsked = bands !== undefined || members !== undefined;
  return drafts.flatMap((draft) => {
    if (draft.kind === 'case') return [draft];
    if (!isAsked) return [];
    throw new UsageError(
      `--bands runs every draft anew and takes cases; ${plainText(draft.file)} is a finished sweep.`,
    );
  });
}

interface SureDrafts {
  readonly planned: PlannedMembers;
  readonly sweeps: ComputedMembers['sweeps'];
}

/** Each draft's spread over its members. */
function bandsOf(
  { planned, sweeps }: SureDrafts,
  { names, targetSpeed }: { readonly names: readonly string[]; readonly targetSpeed: number | null },
) {
  const { cell, drafts } = planned.ensemble;
  return drafts.map(({ speeds, inputs }, k) => {
    const of = { speeds, targetSpeed, cell, inputs, drivers: [] };
    const { bands } = bandsDocument(bandsAnswer(sweeps[k] ?? [], of));
    return { draft: names[k] ?? '', ...bands };
  });
}

/** How every other draft fares against the first, member by member. */
function chancesOf(
  { sweeps }: SureDrafts,
  of: {
    readonly names: readonly string[];
    readonly targetSpeed: number | null;
    readonly band: { readonly from: number; readonly to: number } | null;
  },
): readonly DraftChances[] {
  const named = sweeps.map((members, k) => ({ name: of.names[k] ?? '', members }));
  const [first, ...others] = named;
  if (first === undefined) return [];
  return others.map((one) => draftChances(one, first, { target: of.targetSpeed, band: of.band }));
}

/** A base by its own name, and a what-if by what is changed of it: "header 260 mm". */
const againstBase = ([base = '', whatIf = '']: readonly string[]): string[] => [
  base,
  whatIf.slice(`${base} · `.length),
];

/** Where drafts were not computed alike, and what to mind before one is built. */
function notesOf(sweeps: readonly SweepResult[], names: readonly string[]): readonly string[] {
  const [first, ...others] = sweeps.map((sweep, k) => ({ name: names[k] ?? '', sweep }));
  if (first === undefined) return [];
  const cautions = others.flatMap(({ name, sweep }) =>
    cautionsOf(first.sweep.case, sweep.case, { draft: name, base: first.name }),
  );
  return [...unlikeNotes([first, ...others]), ...cautions];
}

function compareCsv(names: readonly string[], sweeps: readonly SweepResult[]): string {
  return csvText(
    ['draft', ...COLUMNS.map((c) => c.name)],
    sweeps.flatMap((sweep, k) => sweep.rows.map((row) => ({ draft: names[k], ...row }))),
  );
}
