/**
 * The best few of a search, in whole millimetres and on the fine mesh. The best on the coarse mesh need not be the best
 * there: it may stand just before an edge that the other mesh has a little earlier. So the leaders that differ from each
 * other are run again beside the start, and what counts is what they do on the fine mesh.
 */

import type { Pipe } from '../../model/pipe.ts';
import { roundedPipe } from '../../pipe/rounding.ts';
import type { Point } from '../search/search.ts';
import type { Constraint } from '../work/constraints.ts';
import type { DraftResult } from '../work/draft.ts';
import type { Evaluator } from './evaluator.ts';
import { meshed } from './mesh.ts';
import { judge, judgedSpeeds } from './objective.ts';
import { type AimQuantity, pipeAt } from './quantities.ts';
import { AimFailure, type AimWish } from './result.ts';
import { type Tried, worstMiss } from './search.ts';

/** Leaders that are run again. */
const LEADERS = 4;
/** Two leaders differ by this in at least one quantity, a share of its range. */
const APART = 0.05;

export interface FinalTask {
  readonly start: Pipe;
  readonly quantities: readonly AimQuantity[];
  readonly constraints: readonly Constraint[];
  readonly history: readonly Tried[];
  readonly cells: number;
  readonly unit: number;
}

export async function bestFinalist(wish: AimWish, task: FinalTask, evaluator: Evaluator): Promise<Pipe> {
  const { subject, target } = wish;
  const { start, quantities, constraints, history, cells, unit } = task;
  const pipes = [...leaders(history).map((point) => pipeAt(start, quantities, point)), start];
  const whole = pipes.flatMap((pipe) => {
    const ways = (['nearest', 'down', 'up'] as const).map((way) => roundedPipe(pipe, way));
    const allowed = ways.filter((one) => worstMiss(constraints, { engine: subject.engine, pipe: one }) <= 0);
    return allowed.slice(0, 1);
  });
  if (whole.length === 0) throw new AimFailure('In whole millimetres no pipe keeps to the constraints.');
  const results = await evaluator.results(
    whole.map((pipe, k) => ({
      name: `final ${k + 1}`,
      subject: meshed(subject, pipe, { cells, speeds: judgedSpeeds(target), quick: false }),
    })),
  );
  const scores = whole.map(
    (_, k) => judge(results[k] as DraftResult, target, unit)?.score ?? Number.NEGATIVE_INFINITY,
  );
  const best = scores.reduce((a, score, k) => (score > (scores[a] as number) ? k : a), 0);
  if (scores[best] === Number.NEGATIVE_INFINITY)
    throw new AimFailure('No pipe in whole millimetres could be run on the finer mesh.');
  return { ...(whole[best] as Pipe), name: `${subject.pipe.name}, aimed at ${target} rpm` };
}

/** The best points that lie apart, best first; equal ones by their place in the search. */
function leaders(history: readonly Tried[]): readonly Point[] {
  const scored = history
    .filter(({ judged }) => judged !== null)
    .sort((a, b) => (b.judged?.score ?? 0) - (a.judged?.score ?? 0) || a.evaluation - b.evaluation);
  const chosen: Point[] = [];
  for (const { point } of scored) {
    if (chosen.length === LEADERS) break;
    const apart = (other: Point): boolean =>
      other.some((x, i) => Math.abs(x - (point[i] as number)) >= APART);
    if (chosen.every(apart)) chosen.push(point);
  }
  return chosen;
}
