/**
 * The best few of a search, in whole millimetres and on the fine mesh. The best on the coarse mesh need not be the best
 * there: it may stand just before an edge that the other mesh has a little earlier. So the leaders that differ from each
 * other are run again beside what the step began with, and what counts is what they do on the fine mesh.
 */

import type { Pipe } from '../../model/pipe.ts';
import { roundedPipe } from '../../pipe/rounding.ts';
import type { Point } from '../search/search.ts';
import type { Constraint } from '../work/constraints.ts';
import type { Evaluator } from './evaluator.ts';
import type { Judge } from './judge.ts';
import { meshed } from './mesh.ts';
import { judgedSpeeds } from './objective.ts';
import { type AimQuantity, pipeAt } from './quantities.ts';
import { AimFailure } from './result.ts';
import { type Tried, worstMiss } from './search.ts';
import type { AimWish } from './wish.ts';

/** Leaders that are run again: of one quantity, and of more. */
const LEADERS = { one: 2, more: 4 } as const;
/** Two leaders differ by this in at least one quantity, a share of its range. */
const APART = 0.05;

export interface FinalTask {
  /** Of the step, in the journal. */
  readonly name: string;
  /** What the search began with. */
  readonly start: Pipe;
  /** What the steps before came to, as it is built: it wins where nothing is better. */
  readonly carried: Pipe | null;
  readonly quantities: readonly AimQuantity[];
  readonly constraints: readonly Constraint[];
  readonly history: readonly Tried[];
  readonly cells: number;
  readonly judge: Judge;
}

export async function bestFinalist(wish: AimWish, task: FinalTask, evaluator: Evaluator): Promise<Pipe> {
  const { subject, target } = wish;
  const { start, carried, quantities, constraints, history, cells, judge } = task;
  const allowed = (pipe: Pipe): boolean => worstMiss(constraints, { engine: subject.engine, pipe }) <= 0;
  const most = quantities.length === 1 ? LEADERS.one : LEADERS.more;
  const pipes = leaders(history, most).map((point) => pipeAt(start, quantities, point));
  const rounded = [...pipes, ...(start === carried ? [] : [start])].flatMap((pipe) => {
    const ways = (['nearest', 'down', 'up'] as const).map((way) => roundedPipe(pipe, way));
    return ways.filter(allowed).slice(0, 1);
  });
  const whole = [...(carried !== null && allowed(carried) ? [carried] : []), ...rounded];
  if (whole.length === 0) throw new AimFailure('In whole millimetres no pipe keeps to the constraints.');
  const results = await evaluator.results(
    whole.map((pipe, k) => ({
      name: `${task.name} final ${k + 1}`,
      subject: meshed(subject, pipe, { cells, speeds: judgedSpeeds(target), quick: false }),
    })),
  );
  const scores = whole.map((pipe, k) => judge(results[k]!, pipe)?.score ?? Number.NEGATIVE_INFINITY);
  const best = scores.indexOf(Math.max(...scores));
  if (scores[best] === Number.NEGATIVE_INFINITY)
    throw new AimFailure('No pipe in whole millimetres could be run on the finer mesh.');
  return whole[best]!;
}

/** The best points that lie apart, best first; equal ones by their place in the search. */
function leaders(history: readonly Tried[], most: number): readonly Point[] {
  const scored = history
    .filter(({ judged }) => judged !== null)
    .sort((a, b) => (b.judged?.score ?? 0) - (a.judged?.score ?? 0) || a.evaluation - b.evaluation);
  const chosen: Point[] = [];
  for (const { point } of scored) {
    if (chosen.length === most) break;
    const apart = (other: Point): boolean => other.some((x, i) => Math.abs(x - point[i]!) >= APART);
    if (chosen.every(apart)) chosen.push(point);
  }
  return chosen;
}
