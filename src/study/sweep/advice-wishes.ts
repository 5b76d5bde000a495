/**
 * What a sweep wishes to have run as advice: for the target and for output the best of changes screened on coarse cells at
 * that speed, for a band moved either way the length that the estimate names. Each is paid for out of what advice may cost.
 */

import type { SweepResult } from '../../engine/read/result.ts';
import { gainOf, type NoAdvice, type Purpose, WORTH_GAIN } from '../../findings/answers/advice.ts';
import { highest, rowFor } from '../../findings/curve.ts';
import { headerFor } from '../../findings/header-estimate.ts';
import type { SweepRow } from '../../findings/row.ts';
import type { WorkingBand } from '../../findings/working-band.ts';
import { valueOrThrow } from '../work/outcome.ts';
import type { Pool } from '../work/pool.ts';
import { withRun } from '../work/run-settings.ts';
import { type Budget, costOf } from './advice-budget.ts';
import { type Change, type Changer, longerHeader, scaledLengths, shapeChanges } from './advice-changes.ts';

/** Cells of the screening and of what is advised, never finer than the sweep's own [m]. */
const SCREEN_CELL = 20e-3;
const ADVICE_CELL = 10e-3;
/** By how much advice moves a band [rpm]. */
const MOVE = 500;
/** Runs from neighbour fields that following a change takes, as a rule. */
const FOLLOW_RUNS = 5;
/** Share of the best screened gain with which a change of the header alone is preferred. */
const SIMPLE = 0.8;

/** A change to be run in full, for a purpose and at a speed [rpm]. */
export interface Wish {
  readonly purpose: Purpose;
  readonly change: Change;
  readonly rpm: number;
  /** What the band's edges are expected at, as a ratio of now. */
  readonly ratio: number;
  readonly cell: number;
  readonly runs: number;
  readonly things: readonly string[];
}

export interface Use {
  readonly pool: Pool;
  readonly signal?: AbortSignal;
  /** Hears of the changes run so far. */
  readonly advance?: (changes: number) => void;
}

export interface Given {
  readonly changer: Changer;
  readonly result: SweepResult;
  readonly band: WorkingBand;
  readonly budget: Budget;
  readonly step: number;
}

/** What is screened goes to the speed of the target; the header is tried by what the estimate says, and by less. */
export async function targetWish(given: Given, use: Use): Promise<Wish | NoAdvice | null> {
  const { changer, result } = given;
  const { targetSpeed } = result.case.run;
  const row = targetSpeed === null ? null : rowFor(result.rows, targetSpeed);
  if (row === null) return null;
  const at = row.speed_rpm;
  const best = highest(result.rows, 'torque_nm')?.speed_rpm ?? at;
  const speeds = [best === at ? null : best, best === at ? null : (best + at) / 2, at + 200, at - 200];
  const headers = speeds.flatMap((from) => {
    const by = from === null ? null : headerFor(result.outline, from, at);
    const change = by === null ? null : longerHeader(changer, by);
    return change === null || from === null ? [] : [{ change, ratio: at / from }];
  });
  return await screened(given, use, { purpose: 'target', rpm: at, headers });
}

export async function outputWish(given: Given, use: Use): Promise<Wish | NoAdvice | null> {
  const row = highest(given.result.rows, 'power_kw');
  if (row === null || row.speed_rpm === given.result.case.run.targetSpeed) return null;
  return await screened(given, use, { purpose: 'output', rpm: row.speed_rpm, headers: [] });
}

interface Screening {
  readonly purpose: Purpose;
  readonly rpm: number;
  readonly headers: readonly { readonly change: Change; readonly ratio: number }[];
}

/** Runs changes of header and shape at a speed, as many as the budget has room for, and takes the best. */
async function screened(
  given: Given,
  use: Use,
  { purpose, rpm, headers }: Screening,
): Promise<Wish | NoAdvice> {
  const { changer, result, budget } = given;
  const shapes = shapeChanges(changer).map((change) => ({ change, ratio: 1 }));
  const none = (why: NoAdvice['why'], of: readonly { readonly change: Change }[] = []): NoAdvice => ({
    for: purpose,
    why,
    tried: null,
    runs: of.length,
    things: thingsOf(of),
  });
  const cell = Math.max(SCREEN_CELL, result.case.run.cell);
  const least = Math.max(headers.length, 2);
  let tried = [...headers, ...shapes];
  // What is screened leaves room for what is then followed: its best, and for a target a band moved either way.
  const after = (purpose === 'target' ? 3 : 1) * costOf(cell, FOLLOW_RUNS);
  while (tried.length > least && !budget.affords(costOf(cell, tried.length) + after))
    tried = tried.slice(0, -1);
  if (tried.length === 0 || !budget.take(costOf(cell, tried.length))) return none('no budget');
  const input = {
    base: withRun(changer.subject, { cell }),
    changed: tried.map(({ change }) => withRun(change.subject, { cell })),
    rpm,
  };
  const rows = valueOrThrow(await use.pool.one({ kind: 'screen', input }, use.signal));
  use.advance?.(tried.length);
  const gains = rows.changed.map((row) => gainOf(rows.base, row) ?? Number.NEGATIVE_INFINITY);
  const most = Math.max(...gains);
  if (!(most >= WORTH_GAIN)) return none('best already', tried);
  const simple = gains.findIndex(
    (gain, k) =>
      k < headers.length && gain >= SIMPLE * most && gain === Math.max(...gains.slice(0, headers.length)),
  );
  const chosen = tried[simple >= 0 ? simple : gains.indexOf(most)];
  const paid = chosen === undefined ? null : followCell(given, purpose === 'target' ? 2 : 0);
  if (chosen === undefined || paid === null) return none('no budget', tried);
  return { purpose, rpm, cell: paid, runs: tried.length, things: thingsOf(tried), ...chosen };
}

/** What of the drawing some changes change. */
const thingsOf = (of: readonly { readonly change: Change }[]): readonly string[] => [
  ...new Set(of.flatMap(({ change }) => change.changes.map(({ name }) => name))),
];

/** Cells on which a change can still be followed, paid for; fine ones where others still to come find room; null: none. */
function followCell({ budget, result }: Given, others: number): number | null {
  for (const wanted of [ADVICE_CELL, SCREEN_CELL]) {
    const cell = Math.max(wanted, result.case.run.cell);
    const cost = costOf(cell, FOLLOW_RUNS);
    const isEnough = wanted === SCREEN_CELL || budget.affords(cost * (1 + others));
    if (isEnough && budget.take(cost)) return cell;
  }
  return null;
}

/** The band moved by a header, or by all lengths where the header is too short for it. */
export function moveWish(given: Given, purpose: 'lower' | 'higher'): Wish | NoAdvice | null {
  const { changer, result, band } = given;
  const none = (why: NoAdvice['why']): NoAdvice => ({ for: purpose, why, tried: null, runs: 0, things: [] });
  const span = band.works ?? band.lands;
  if (span === null) return null;
  const way = purpose === 'lower' ? -1 : 1;
  if (way < 0 ? band.openBelow : band.openAbove) return none('open');
  const centre = (span.from + span.to) / 2;
  const ratio = (centre + way * MOVE) / centre;
  const by = headerFor(result.outline, centre, centre * ratio);
  const change =
    (by === null ? null : longerHeader(changer, by)) ??
    scaledLengths(changer, ['header', 'diffuser', 'belly', 'baffle'], 1 / ratio);
  if (change === null) return none('no change');
  const rpm = beside(result.rows, way < 0 ? span.from : span.to, way);
  const cell = rpm === null ? null : followCell(given, purpose === 'lower' ? 1 : 0);
  if (rpm === null) return none('open');
  return cell === null
    ? none('no budget')
    : { purpose, change, rpm, ratio, cell, runs: 1, things: thingsOf([{ change }]) };
}

/** The first computed speed beyond an edge, where the pipe as it is no longer works [rpm]. */
function beside(rows: readonly SweepRow[], edge: number, way: 1 | -1): number | null {
  const beyond = rows.map((row) => row.speed_rpm).filter((speed) => (speed - edge) * way > 0);
  return beyond.length === 0 ? null : way > 0 ? Math.min(...beyond) : Math.max(...beyond);
}
