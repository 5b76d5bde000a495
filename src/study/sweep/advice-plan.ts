/**
 * Which changes a sweep's advice tries, planned before any is run: what is wished for each purpose, as far as what advice
 * may cost goes.
 */

import type { OpenedFile } from '../../case/load.ts';
import type { SweepResult } from '../../engine/read/result.ts';
import type { NoAdvice } from '../../findings/answers/advice.ts';
import { computedSpeeds } from '../../findings/curve.ts';
import { workingBand } from '../../findings/working-band.ts';
import { allowance, type Cells, cellsFor, granted } from './advice-budget.ts';
import { changerOf } from './advice-changes.ts';
import { type Given, moveWish, outputWish, type Trialled, targetWish, type Wish } from './advice-wishes.ts';

/** Steps of speed are not finer than this [rpm]: the edges of a landing lie between them. */
const LEAST_STEP = 200;
/** A sweep of fewer speeds has no band that advice could move. */
const FEW = 5;

export interface Planned {
  readonly wish: Wish;
  readonly screenWork: number;
  readonly edgeWork: number;
}

export interface AdvicePlan {
  readonly given: Given;
  readonly planned: readonly Planned[];
  /** Purposes for which nothing is tried, and why. */
  readonly none: readonly NoAdvice[];
  readonly cells: Cells;
  /** Between the speeds that are run [rpm]. */
  readonly step: number;
  /** Changes that will be tried. */
  readonly changes: number;
}

/** Null: the sweep has too few speeds for advice. */
export function planAdvice(
  opened: OpenedFile,
  set: readonly string[],
  result: SweepResult,
): AdvicePlan | null {
  const { rows, case: subject } = result;
  const { step } = computedSpeeds(rows);
  if (rows.length < FEW || !(step > 0)) return null;
  const given: Given = { changer: changerOf(opened, set), result, band: workingBand(rows) };
  const found = [targetWish(given), moveWish(given, 'lower'), moveWish(given, 'higher'), outputWish(given)];
  const none = found.flatMap((one) => (one !== null && 'why' in one ? [one] : []));
  const wishes = found.flatMap((one) => (one === null || 'why' in one ? [] : [one]));
  const cells = cellsFor(subject.run.cell);
  const wanted = wishes.map(({ of }) => ({ changes: of.length }));
  const grants = granted(wanted, allowance(result), cells);
  const planned = wishes.flatMap((wish, k): Planned[] => {
    const { changes = 0, screenWork = 0, edgeWork = 0 } = grants[k] ?? {};
    const of = wish.of.slice(0, changes);
    if (of.length > 0) return [{ wish: { ...wish, of }, screenWork, edgeWork }];
    none.push(withoutAdvice(wish, 'no budget'));
    return [];
  });
  const changes = planned.reduce((sum, { wish }) => sum + wish.of.length, 0);
  return { given, planned, none, cells, step: step * Math.ceil(LEAST_STEP / step), changes };
}

/** What of the drawing some changes change. */
const thingsOf = (of: readonly Trialled[]): readonly string[] => [
  ...new Set(of.flatMap(({ change }) => change.changes.map(({ name }) => name))),
];

/** That a wish is not fulfilled, and the advice that would have been if it did not lose. */
export const withoutAdvice = (
  { purpose, of }: Wish,
  why: NoAdvice['why'],
  tried: NoAdvice['tried'] = null,
): NoAdvice => ({ for: purpose, why, tried, runs: of.length, things: thingsOf(of) });
