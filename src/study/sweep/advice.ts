/**
 * Advice of a sweep: changes that were run before they are advised. Changes are screened on coarse cells at the speed where
 * they are meant to help; the best of each purpose is then run on finer ones beside the pipe as it is, and followed to where
 * its wave ceases to land. What is brought to a target is the speed of best torque as computed.
 *
 * What is run depends on the sweep's rows and settings alone, never on threads or clocks.
 */

import type { OpenedFile } from '../../case/load.ts';
import type { SweepResult } from '../../engine/read/result.ts';
import {
  type Advice,
  type AdviceReport,
  costAgainst,
  followedLanding,
  gainOf,
  NO_LOSS,
  type NoAdvice,
  type Purpose,
  WORTH_GAIN,
} from '../../findings/answers/advice.ts';
import type { SpeedSpan } from '../../findings/band.ts';
import { computedSpeeds, highest } from '../../findings/curve.ts';
import type { SweepRow } from '../../findings/row.ts';
import { type WorkingBand, workingBand } from '../../findings/working-band.ts';
import type { Followed } from '../work/change-jobs.ts';
import { valueOrThrow } from '../work/outcome.ts';
import { withRun } from '../work/run-settings.ts';
import { Budget } from './advice-budget.ts';
import { changerOf } from './advice-changes.ts';
import { type Given, moveWish, outputWish, targetWish, type Use, type Wish } from './advice-wishes.ts';

/** Steps of speed are not finer than this [rpm]: the edges of a landing lie between them. */
const LEAST_STEP = 200;
/** Speeds looked at for each edge of a landing. */
const EDGE_RUNS = 4;
/** A sweep of fewer speeds has no band that advice could move. */
const FEW = 5;

export async function sweepAdvice(
  {
    opened,
    set,
    result,
  }: { readonly opened: OpenedFile; readonly set: readonly string[]; readonly result: SweepResult },
  use: Use,
): Promise<AdviceReport> {
  const { rows, case: subject } = result;
  const { step } = computedSpeeds(rows);
  if (rows.length < FEW || !(step > 0)) return { advice: [], none: [] };
  const given: Given = {
    changer: changerOf(opened, set),
    result,
    band: workingBand(rows),
    budget: new Budget(rows.length, subject.run.cell),
    step: step * Math.ceil(LEAST_STEP / step),
  };
  const none: NoAdvice[] = [];
  const wishes: Wish[] = [];
  const take = (found: Wish | NoAdvice | null): void => {
    if (found === null) return;
    if ('why' in found) none.push(found);
    else wishes.push(found);
  };
  take(await targetWish(given, use));
  take(moveWish(given, 'lower'));
  take(moveWish(given, 'higher'));
  take(await outputWish(given, use));
  const advice = await followed(given, wishes, none, use);
  return { advice, none };
}

/** Runs what is wished for; what holds is advice, what does not is told why. */
async function followed(
  { changer, result, band, step }: Given,
  wishes: readonly Wish[],
  none: NoAdvice[],
  use: Use,
): Promise<readonly Advice[]> {
  const found: (Advice | null)[] = wishes.map(() => null);
  const middle = highest(result.rows, 'torque_nm')?.speed_rpm ?? 0;
  const lands: SpeedSpan = band.lands ?? { from: middle, to: middle };
  const jobs = wishes.map(({ change, rpm, ratio, cell }) => ({
    kind: 'follow' as const,
    input: {
      base: withRun(changer.subject, { cell }),
      changed: withRun(change.subject, { cell }),
      rpm,
      lower: lands.from * ratio,
      upper: lands.to * ratio,
      step,
      most: EDGE_RUNS,
    },
  }));
  let done = 0;
  const failed: NoAdvice[] = [];
  for await (const { index, outcome } of use.pool.asFinished(jobs, use.signal)) {
    const wish = wishes[index] as Wish;
    const judged = judge(wish, valueOrThrow(outcome), result.rows, band);
    if ('why' in judged) failed.push(judged);
    else found[index] = judged;
    done += 1;
    use.advance?.(done);
  }
  const order: readonly Purpose[] = ['target', 'lower', 'higher', 'output'];
  none.push(...failed.sort((a, b) => order.indexOf(a.for) - order.indexOf(b.for)));
  return found.filter((one) => one !== null);
}

function judge(wish: Wish, run: Followed, sweep: readonly SweepRow[], band: WorkingBand): Advice | NoAdvice {
  const { purpose, change, rpm, cell, runs, things } = wish;
  const none = (why: NoAdvice['why'], tried: Advice | null = null): NoAdvice => ({
    for: purpose,
    why,
    tried,
    runs,
    things,
  });
  const gain = gainOf(run.base, run.at);
  const now = sweep.find((row) => row.speed_rpm === rpm)?.torque_nm ?? run.base?.torque_nm ?? null;
  if (gain === null || now === null || run.at?.settled !== true) return none('did not settle');
  const landing = followedLanding(run.rows);
  const advice: Advice = {
    for: purpose,
    changes: change.changes,
    set: change.set,
    promises: {
      torque_nm: now * (1 + gain),
      at_rpm: rpm,
      lands_from_rpm: landing.from,
      lands_to_rpm: landing.to,
    },
    now: { torque_nm: now, lands: band.lands },
    cost: costAgainst(sweep, run.rows, band.works ?? band.lands),
    basis: 'run',
    cell,
  };
  const moves = purpose === 'lower' || purpose === 'higher';
  if (!moves) return gain < WORTH_GAIN * 0.67 ? none('best already') : advice;
  return gain < -NO_LOSS || !goesItsWay(advice) ? none('loses', advice) : advice;
}

/** Both edges of the landing move the way that was meant, as far as they are known. */
function goesItsWay({ for: purpose, promises, now }: Advice): boolean {
  const way = purpose === 'lower' ? -1 : 1;
  const { lands_from_rpm: from, lands_to_rpm: to } = promises;
  if (now.lands === null || (from === null && to === null)) return false;
  const moves = [from === null ? null : from - now.lands.from, to === null ? null : to - now.lands.to];
  return moves.every((by) => by === null || by * way > 0);
}
