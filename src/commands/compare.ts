/** `echocone compare`: two to eight drafts, measured against the first; a table, a document and a page. */

import { comparePage } from '../../plots/pages/compare-page.ts';
import { compareCard } from '../../plots/pages/run-cards.ts';
import { caseOf, openFile } from '../case/load.ts';
import type { SweepResult } from '../engine/read/result.ts';
import { compareAnswer, MOST_DRAFTS } from '../findings/answers/compare.ts';
import { COLUMNS } from '../findings/row.ts';
import { isFailedStudy } from '../findings/settled.ts';
import { compareDocument } from '../study/compare/document.ts';
import { caseOfDraft, casesToSweep, type Draft, draftsSoFar, sweptDrafts } from '../study/compare/drafts.ts';
import { finishedSweep, sweepFileOf } from '../study/compare/finished-sweep.ts';
import { unlikeNotes } from '../study/compare/unlike.ts';
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
import { compareText } from './words/compare-text.ts';

/** Not the name that other studies give theirs. */
const JOURNAL = 'compare-journal.jsonl';

export async function run(invocation: Invocation): Promise<ExitCode> {
  const { flags, terminal, signal, program } = invocation;
  const drafts = draftsOf(invocation);
  const band = flags.band === undefined ? null : covered(flags.band, drafts);
  const cases = casesToSweep(drafts);
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
  try {
    const advance = (speeds: number): void => progress.advance(speeds);
    sweeps = await sweptDrafts(drafts, { pool, program, kept, signal, advance });
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
  const { answer, document, names, notes } = write(told, sweeps);
  kept.remove();
  const { colour } = terminal;
  terminal.answer(flags.json ? jsonText(document) : compareText(answer, { names, sweeps, notes, colour }));
  terminal.message(`Page: ${folder.file('compare.html')}`);
  terminal.message('compare.csv and compare.json lie beside it.');
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
  const loaded = withRun(caseOf(openFile(file), set), flags);
  const name = whatIfName(loaded.name, set);
  for (const warning of loaded.warnings) terminal.warning(plainText(`${name}: ${warning}`));
  return { kind: 'case', file, name, subject: { ...loaded, name } };
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
function write({ invocation, drafts, band, folder }: Told, sweeps: readonly SweepResult[]) {
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
  folder.write('compare.json', jsonText(document));
  const named = sweeps.map((sweep, k) => ({ name: short[k]!, sweep }));
  const page = { program, drafts: named, targetSpeed, answer, notes };
  folder.write('compare.html', comparePage(page, pageAssets('compare')));
  listRun(
    folder,
    'compare.html',
    { ...compareCard(page), ...(changed.length === 0 ? {} : { changed }) },
    { terminal, program },
  );
  return { answer, document, names, notes };
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
