/**
 * Trimming on the fine mesh. A coarse mesh moves the waves by a degree or so, and the best pipe often stands at an edge
 * where torque falls steeply with speed; what is best on one side of it may lie beyond it on the other mesh. So the
 * rounded pipe is tried with a few lengths of one section, by default the header, and the best of them is taken.
 */

import type { Pipe } from '../../model/pipe.ts';
import type { Constraint } from '../work/constraints.ts';
import type { Evaluator } from './evaluator.ts';
import type { Judge } from './judge.ts';
import { meshed } from './mesh.ts';
import { judgedSpeeds } from './objective.ts';
import type { AimQuantity } from './quantities.ts';
import { worstMiss } from './search.ts';
import type { AimWish } from './wish.ts';

/** Changes of the length that are tried [m]; none comes first, so that it wins a tie. */
const STEPS = [0, -0.005, 0.005, -0.01, 0.01, -0.02];

export interface TrimTask {
  readonly pipe: Pipe;
  readonly quantities: readonly AimQuantity[];
  readonly constraints: readonly Constraint[];
  readonly cells: number;
  readonly judge: Judge;
}

export async function trimmed(
  { subject, target }: AimWish,
  { pipe, quantities, constraints, cells, judge }: TrimTask,
  evaluator: Evaluator,
): Promise<Pipe> {
  const lengths = quantities.filter(({ name }) => name.endsWith(' length'));
  const length = lengths.find(({ name }) => name.startsWith('header')) ?? lengths[0];
  if (length === undefined) return pipe;
  const value = length.read(pipe);
  const pipes = STEPS.map((step) => Number((value + step).toFixed(6)))
    .filter((one) => one === value || (one >= length.low && one <= length.high && one >= 0.001))
    .map((one) => (one === value ? pipe : length.write(pipe, one)))
    .filter((one) => worstMiss(constraints, { engine: subject.engine, pipe: one }) <= 0);
  const results = await evaluator.results(
    pipes.map((one, k) => ({
      name: `trim ${k + 1}`,
      subject: meshed(subject, one, { cells, speeds: judgedSpeeds(target), quick: false }),
    })),
  );
  const scores = pipes.map((one, k) => judge(results[k]!, one)?.score ?? Number.NEGATIVE_INFINITY);
  const best = scores.reduce((a, score, k) => (score > scores[a]! ? k : a), 0);
  return pipes[best] ?? pipe;
}
