/**
 * Advice of a sweep: changes that were run before they are advised. For each purpose changes are screened on coarse cells at the
 * speed where they are meant to help; the best is run on finer ones and followed to where its wave ceases to land
 * (`work/trial.ts`). What is brought to a target is the speed of best torque as computed.
 *
 * What is run depends on the sweep's rows and settings alone, never on threads or clocks.
 */

import {
  type Advice,
  type AdviceReport,
  costAgainst,
  followedLanding,
  NO_LOSS,
  type NoAdvice,
  PURPOSES,
  WORTH_GAIN,
} from '../../findings/answers/advice.ts';
import { highest, nearest } from '../../findings/curve.ts';
import { lands } from '../../findings/landing.ts';
import type { SweepRow } from '../../findings/row.ts';
import type { Case } from '../../model/case.ts';
import { valueOrThrow } from '../work/outcome.ts';
import type { Pool } from '../work/pool.ts';
import type { Trial, TrialJob } from '../work/trial.ts';
import type { Change, Changer } from './advice-changes.ts';
import { type AdvicePlan, withoutAdvice } from './advice-plan.ts';
import type { Given, Wish } from './advice-wishes.ts';

export interface Use {
  readonly pool: Pool;
  readonly signal?: AbortSignal;
  /** Hears of the changes tried so far. */
  readonly advance?: (changes: number) => void;
}

export async function runAdvice(plan: AdvicePlan, use: Use): Promise<AdviceReport> {
  const trials = await tried(plan, use);
  const judged = plan.planned.map(({ wish }, k) => {
    const trial = trials?.[k];
    return trial === undefined ? withoutAdvice(wish, 'did not settle') : judge(plan, wish, trial);
  });
  const order = (one: NoAdvice): number => PURPOSES.indexOf(one.for);
  const advice = judged.flatMap((one) => ('why' in one ? [] : [one]));
  const target = advice.find((one) => one.for === 'target');
  // Where the change for the target moves the band that way, nothing is missing.
  const isDone = ({ for: purpose, why }: NoAdvice): boolean =>
    why === 'no budget' && target !== undefined && goesItsWay({ ...target, for: purpose });
  const none = [...plan.none, ...judged.flatMap((one) => ('why' in one ? [one] : []))];
  return { advice, none: none.filter((one) => !isDone(one)).sort((a, b) => order(a) - order(b)) };
}

/** Runs the trials side by side, those of many changes first, and gives them in the order of the plan; none if nothing marches. */
async function tried(
  { given, planned, cells, step }: AdvicePlan,
  use: Use,
): Promise<readonly Trial[] | null> {
  const { changer, band } = given;
  const base = bare(changer.subject);
  const known = knownRow(given);
  if (planned.length === 0 || known === null) return null;
  const knownEdge = edgeRow(given, known);
  const like = { base, rpm: known.speed_rpm, edgeRpm: knownEdge?.speed_rpm ?? null, ...cells };
  const likeness = valueOrThrow(await use.pool.one({ kind: 'likeness', input: like }, use.signal));
  if (likeness === null) return null;
  const landing = band.lands ?? { from: known.speed_rpm, to: known.speed_rpm };
  const size = (k: number): number => planned[k]?.wish.of.length ?? 0;
  const order = planned.map((_, k) => k).sort((a, b) => size(b) - size(a) || a - b);
  const jobs = order.map((k) => {
    const { wish, screenWork, edgeWork } = planned[k]!;
    const { rpm, of } = wish;
    const candidates = of.map(({ change, ratio, simple }) => ({
      subject: changedCase(changer, change),
      ratio,
      simple,
    }));
    const where = { known, knownEdge, likeness, landing, step, screenWork, edgeWork };
    const input: TrialJob = { ...like, candidates, rpm, ...where };
    return { kind: 'trial' as const, input };
  });
  const trials: Trial[] = [];
  let done = 0;
  for await (const { index, outcome } of use.pool.asFinished(jobs, use.signal)) {
    const k = order[index]!;
    trials[k] = valueOrThrow(outcome);
    done += size(k);
    use.advance?.(done);
  }
  return trials;
}

/** The settled row of most torque among those at which the wave lands, or else of all; null: none settled. */
function knownRow({ result: { rows } }: Given): SweepRow | null {
  const settled = rows.filter((row) => row.settled);
  const landing = settled.filter(lands);
  return highest(landing.length > 0 ? landing : settled, 'torque_nm');
}

/** The settled row nearest to where the wave begins to land; null: that is not known, or the other row itself. */
function edgeRow({ result: { rows }, band }: Given, known: SweepRow): SweepRow | null {
  const from = band.lands?.from;
  if (from === undefined || from <= (rows[0]?.speed_rpm ?? 0)) return null;
  const row = nearest(
    rows.filter(({ settled }) => settled),
    from,
  );
  return row === known ? null : row;
}

/** A changed case; where the pipe alone is changed, its engine is the same object, whose tables are then made once. */
function changedCase({ subject }: Changer, change: Change): Case {
  const isPipe = change.set.every((text) => text.startsWith('pipe.'));
  return bare(isPipe ? { ...change.subject, engine: subject.engine } : change.subject);
}

/** A case without what running it does not need. */
const bare = (subject: Case): Case => ({ ...subject, inputs: [], assumed: [], warnings: [] });

function judge({ given, cells, step }: AdvicePlan, wish: Wish, trial: Trial): Advice | NoAdvice {
  const { result, band } = given;
  const { coarse, fine } = cells;
  const { purpose, rpm } = wish;
  if (trial.chosen === null) return withoutAdvice(wish, 'best already');
  const change = wish.of[trial.chosen]?.change;
  const now = result.rows.find((row) => row.speed_rpm === rpm)?.torque_nm ?? null;
  const torque = trial.at?.torque_nm ?? null;
  if (change === undefined || now === null || torque === null || trial.at?.settled !== true)
    return withoutAdvice(wish, 'did not settle');
  const landing = followedLanding(trial.rows, step);
  const advice: Advice = {
    for: purpose,
    changes: change.changes,
    set: change.set,
    promises: {
      torque_nm: torque,
      at_rpm: rpm,
      lands_from_rpm: landing.from,
      lands_to_rpm: landing.to,
    },
    now: { torque_nm: now, lands: band.lands },
    cost: costAgainst(result.rows, trial.rows, band.works ?? band.lands),
    basis: 'run',
    cell: fine,
    edgeCell: coarse,
  };
  const gain = torque / now - 1;
  const moves = purpose === 'lower' || purpose === 'higher';
  if (!moves) return gain < WORTH_GAIN ? withoutAdvice(wish, 'best already') : advice;
  return gain < -NO_LOSS || !goesItsWay(advice) ? withoutAdvice(wish, 'loses', advice) : advice;
}

/** Both edges of the landing move the way that was meant, as far as they are known. */
function goesItsWay({ for: purpose, promises, now }: Advice): boolean {
  if (purpose !== 'lower' && purpose !== 'higher') return false;
  const way = purpose === 'lower' ? -1 : 1;
  const { lands_from_rpm: from, lands_to_rpm: to } = promises;
  if (now.lands === null || (from === null && to === null)) return false;
  const moves = [from === null ? null : from - now.lands.from, to === null ? null : to - now.lands.to];
  return moves.every((by) => by === null || by * way > 0);
}
