/** The ranking as plain data: columns and rows for its file, and what the page is made of. */

import { scoreText } from '../work/score.ts';
import type { RankedDraft } from './ranking.ts';
import type { OvernightTask } from './run.ts';
import type { OvernightSummary } from './summary.ts';
import type { Tally } from './tally.ts';

type Told = Pick<OvernightTask, 'lead' | 'drafts' | 'plan' | 'program'>;

export interface RankingTable {
  readonly columns: readonly string[];
  readonly rows: readonly Readonly<Record<string, string | number | null>>[];
}

/** One row a draft; the columns of varied quantities and readings are named for them, with their unit. */
export function rankingTable({ lead, drafts }: Told, tally: Tally, summary: OvernightSummary): RankingTable {
  const varied = drafts.quantities.map(({ name, unit }) => columnName(name, unit));
  const readings = tally.readings.map(({ name, unit }) => columnName(name, unit));
  const columns = [
    'rank',
    'draft',
    'standing',
    columnName(summary.score.name, summary.score.unit),
    ...(lead.study.screen === null ? [] : ['screen_score']),
    ...varied,
    ...readings,
    'misses',
    'reason',
  ];
  return {
    columns: distinct(columns),
    rows: summary.ranking.map((one) => rowOf(one, distinct(columns), lead.study.screen !== null)),
  };
}

function rowOf(
  one: RankedDraft,
  columns: readonly string[],
  screened: boolean,
): RankingTable['rows'][number] {
  const cells = [
    one.rank,
    one.name,
    one.standing,
    one.score,
    ...(screened ? [one.screenScore] : []),
    ...one.values,
    ...one.readings,
    one.misses.join('; '),
    one.reason,
  ];
  return Object.fromEntries(columns.map((column, k) => [column, cells[k] ?? null]));
}

/** `middle before EC at 11000 rpm` in deg as `middle_before_ec_at_11000_rpm_deg`. */
function columnName(name: string, unit: string): string {
  const plain = (text: string): string =>
    text
      .toLowerCase()
      .replaceAll('%', 'percent')
      .replace(/[^\p{L}\p{N}]+/gu, '_')
      .replace(/^_+|_+$/g, '');
  return [plain(name), plain(unit)].filter((part) => part !== '').join('_');
}

function distinct(columns: readonly string[]): readonly string[] {
  return columns.map((name, k) =>
    columns.indexOf(name) === k
      ? name
      : `${name}_${columns.slice(0, k).filter((other) => other === name).length + 1}`,
  );
}

/** What the page shows: drafts that ran or failed. Those left out and those the screen dropped stand in the file. */
export function overnightPageResult(task: Told, tally: Tally, summary: OvernightSummary) {
  const { lead, drafts, plan, program } = task;
  const constraints = plan.constraints.map(({ name, allows }) => `${name} (${allows})`);
  const names = plan.constraints.map(({ name }) => name);
  return {
    program,
    study: lead.study.name,
    caseName: lead.base.name,
    score: { ...summary.score, higherIsBetter: true },
    varied: drafts.quantities,
    constraints,
    readings: tally.readings,
    drafts: summary.ranking
      .filter((one) => one.standing === 'scored' || one.standing === 'failed')
      .map((one) => ({
        name: shownName(one.name),
        score: one.score,
        values: one.values,
        met: names.map((name) => !one.misses.includes(name)),
        readings: one.readings,
        ...(one.reason === '' ? {} : { failure: one.reason }),
      })),
    total: summary.total,
    unfinished: summary.unfinished,
    cell: drafts.cell,
    best: summary.best.map(({ name, outline, rows }) => ({
      name: shownName(name),
      outline,
      rows,
    })),
    importance: summary.importance,
    // A score of one term is named for it.
    notes: [
      ...(lead.study.score.length === 1 ? [] : [`Score: ${scoreText(lead.study.score)}.`]),
      ...summary.notes,
    ],
  };
}

/** A draft that has only a number is told as one. */
function shownName(name: string): string {
  return /^\d+$/.test(name) ? `draft ${name}` : name;
}

/** The ranking as a document. */
export function rankingDocument(task: Told, tally: Tally, summary: OvernightSummary) {
  const { lead, drafts, plan, program } = task;
  return {
    schemaVersion: 1 as const,
    kind: 'overnight' as const,
    program,
    study: lead.study.name,
    case: lead.base.name,
    score: { ...summary.score, terms: lead.study.score },
    varied: drafts.quantities,
    readings: tally.readings,
    constraints: plan.constraints.map(({ name, allows }) => ({ name, allows })),
    speeds: lead.study.speeds,
    cell: drafts.cell,
    unfinished: summary.unfinished,
    importance: summary.importance,
    screen: summary.screen,
    notes: summary.notes,
    ranking: summary.ranking,
  };
}
