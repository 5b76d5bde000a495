/** What an overnight study comes to: its ranking, the rows of the best, what the score depends on, and what to mind. */

import type { SweepResult } from '../../engine/read/result.ts';
import type { SweepRow } from '../../findings/row.ts';
import { cautionsOf } from '../work/cautions.ts';
import type { DraftResult } from '../work/draft.ts';
import { openJournal } from '../work/journal.ts';
import { outlineOf } from '../work/run-sweep.ts';
import { scoreName } from '../work/score.ts';
import { journalOf } from './fingerprint.ts';
import { type Importance, importanceOf } from './importance.ts';
import { type RankedDraft, rankedDrafts } from './ranking.ts';
import { type OvernightTask, placeOf } from './run.ts';
import { checkScreen, type ScreenCheck } from './screen-check.ts';
import type { Tally } from './tally.ts';

/** Drafts whose pipes and curves are shown. */
const SHOWN = 5;

export interface BestDraft {
  readonly name: string;
  readonly outline: SweepResult['outline'];
  readonly rows: readonly SweepRow[];
}

export interface OvernightSummary {
  readonly score: { readonly name: string; readonly unit: string };
  readonly ranking: readonly RankedDraft[];
  readonly best: readonly BestDraft[];
  readonly importance: readonly Importance[];
  readonly screen: ScreenCheck | null;
  /** Drafts that are to be run in all, as far as is known. */
  readonly total: number;
  /** Some drafts have not been run. */
  readonly unfinished: boolean;
  readonly notes: readonly string[];
}

type SummaryTask = Pick<OvernightTask, 'lead' | 'drafts' | 'plan' | 'journal' | 'program'>;

export function overnightSummary(task: SummaryTask, tally: Tally): OvernightSummary {
  const { lead, drafts, plan } = task;
  const { study } = lead;
  const ranking = [...rankedDrafts(drafts, tally, plan.constraints)];
  const scored = ranking.filter((one) => one.score !== null);
  const screen =
    study.screen?.check === true
      ? checkScreen(
          scored.map((one) => one.screenScore),
          scored.map((one) => one.score),
          study.screen.keep,
        )
      : null;
  const total = Math.round((plan.run / plan.looked) * plan.drafts);
  // What was admitted is scored, failed or dropped by the screen once all is run.
  const unfinished = Array.from({ length: tally.count }, (_, k) => tally.standing(k)).includes('open');
  const best = scored[0];
  return {
    score: scoreName(study.score),
    ranking,
    best: bestDrafts(task, scored.slice(0, SHOWN)),
    importance: importanceOf(
      drafts.quantities.map(({ name }) => name),
      scored.map((one) => one.values),
      scored.map((one) => one.score ?? 0),
    ),
    screen,
    total,
    unfinished,
    notes: [
      ...(unfinished
        ? [
            `Unfinished: ${scored.length} of about ${total} drafts are scored. The ranking and what the score depends on are of those alone.`,
          ]
        : []),
      ...(best === undefined ? [] : cautionsOf(lead.base, drafts.caseAt(best.index))),
      ...notesOf(ranking, screen, study.screen),
    ],
  };
}

/** Pipes of the best from their cases, their rows from the journal. */
function bestDrafts(task: SummaryTask, chosen: readonly RankedDraft[]): readonly BestDraft[] {
  const rows = new Map<number, readonly SweepRow[]>();
  const wanted = new Set(chosen.map((one) => one.index));
  if (wanted.size > 0) {
    openJournal<DraftResult>(task.journal, journalOf(task), (draft, result) => {
      const { pass, index } = placeOf(draft);
      if (pass === 'full' && result.ok && wanted.has(index)) rows.set(index, result.rows);
    }).close();
  }
  return chosen.map(({ index, name }) => ({
    name,
    outline: outlineOf(task.drafts.caseAt(index)),
    rows: rows.get(index) ?? [],
  }));
}

function notesOf(
  ranking: readonly RankedDraft[],
  screen: ScreenCheck | null,
  stated: OvernightTask['lead']['study']['screen'],
): readonly string[] {
  const count = (standing: RankedDraft['standing']): number =>
    ranking.filter((one) => one.standing === standing).length;
  const unsettled = ranking.filter((one) => (one.readings[4] ?? 0) > 0).length;
  const notes = [
    count('outside') > 0 ? `${drafts(count('outside'))} outside the constraints were not run.` : '',
    count('failed') > 0 ? `${drafts(count('failed'))} failed; ranking.csv has the reasons.` : '',
    unsettled > 0
      ? `${drafts(unsettled)} did not settle at some speed: the means of the last cycles were taken.`
      : '',
    stated !== null && !stated.check
      ? `A screen at ${Number((1000 * stated.cell).toFixed(2))} mm cells and ${stated.speeds.length} speeds dropped ${drafts(count('screened'))}; a screen can drop the best.`
      : '',
    screen === null ? '' : screenText(screen),
  ];
  return notes.filter((note) => note !== '');
}

/** What the check of a screen found, in words. */
export function screenText(screen: ScreenCheck): string {
  const { winnerPlace, kept, drafts: all, droppedShare, halves } = screen;
  const fate = winnerPlace <= kept ? 'would have kept' : 'would have dropped';
  return (
    `The screen ${fate} the winner: its place there is ${winnerPlace} of ${all}, and the best ${kept} are kept. ` +
    `Of ${halves} random halves of the drafts it would have dropped the winner of ${(100 * droppedShare).toFixed(1)} %.`
  );
}

function drafts(count: number): string {
  return count === 1 ? '1 draft' : `${count} drafts`;
}
