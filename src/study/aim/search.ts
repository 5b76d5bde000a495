/**
 * The search of a step: along a line where one quantity moves, by CMA-ES where more do, in the unit cube of their ranges. Each
 * point is a pipe that is run unless the drawing alone forbids it. The search minimises, so it is told minus the score.
 */

import type { Case } from '../../model/case.ts';
import type { Pipe } from '../../model/pipe.ts';
import { cmaEs } from '../search/cma-es.ts';
import { lineSearch } from '../search/line-search.ts';
import { type Best, minimise, type Point, type Search, type SearchOutcome } from '../search/search.ts';
import type { Constraint } from '../work/constraints.ts';
import type { Asked, Evaluator } from './evaluator.ts';
import type { Judge } from './judge.ts';
import { meshed } from './mesh.ts';
import { type Judged, judgedSpeeds } from './objective.ts';
import { type AimQuantity, pipeAt, pointOf } from './quantities.ts';

export interface SearchTask {
  /** Of the step, in the journal. */
  readonly name: string;
  readonly subject: Case;
  readonly start: Pipe;
  readonly quantities: readonly AimQuantity[];
  readonly constraints: readonly Constraint[];
  readonly target: number;
  readonly cells: number;
  readonly judge: Judge;
  /** Torque that penalties are measured in [Nm]. */
  readonly unit: number;
  /** Score of the start [Nm]. */
  readonly startScore: number;
  readonly mostDrafts: number;
  readonly seed: number;
}

/** One point that was tried. */
export interface Tried {
  readonly evaluation: number;
  readonly point: Point;
  /** Null: it failed or was forbidden. */
  readonly judged: Judged | null;
}

export interface Found {
  readonly outcome: SearchOutcome;
  readonly history: readonly Tried[];
}

/**
 * A forbidden pipe is worth less than the best so far by this many torques of the start times the share by which it
 * misses: one per cent costs a twentieth. So the search may come close to a limit from both sides, and never ends beyond.
 */
const FORBIDDEN = 5;

function bestScore(history: readonly Tried[], start: number): number {
  return history.reduce((best, { judged }) => Math.max(best, judged?.score ?? best), start);
}

/** First step of the search, a share of every range. */
const STEP = 0.15;
/** Ends of the search: the least that quantities move, a share of their range, and scores, a share of the unit. */
const LEAST_MOVE = { line: 0.008, cube: 2e-3 } as const;
const LEAST_GAIN = 2e-4;

function searchOf({ quantities, start, unit, seed, mostDrafts }: SearchTask): Search {
  const most = { mostEvaluations: mostDrafts };
  if (quantities.length === 1) return lineSearch({ ...most, pointTolerance: LEAST_MOVE.line });
  return cmaEs({
    ...most,
    start: pointOf(start, quantities),
    sigma: STEP,
    seed,
    valueTolerance: LEAST_GAIN * unit,
    pointTolerance: LEAST_MOVE.cube,
  });
}

export async function search(
  task: SearchTask,
  evaluator: Evaluator,
  tell: (evaluations: number, best: number | null) => void,
): Promise<Found> {
  const { name, subject, start, quantities, constraints, target, cells, unit, judge } = task;
  const history: Tried[] = [];
  const valuesOf = async (points: readonly Point[], batch: number): Promise<readonly number[]> => {
    const pipes = points.map((point) => pipeAt(start, quantities, point));
    const misses = pipes.map((pipe) => worstMiss(constraints, { engine: subject.engine, pipe }));
    const asked = pipes.flatMap((pipe, k): Asked[] =>
      misses[k]! > 0
        ? []
        : [
            {
              name: `${name} ${batch + 1}.${k + 1}`,
              subject: meshed(subject, pipe, { cells, speeds: judgedSpeeds(target), quick: true }),
            },
          ],
    );
    const before = history.length;
    const best = before === 0 ? null : bestScore(history, task.startScore);
    const results = await evaluator.results(asked, (done) => tell(before + done, best));
    let next = 0;
    return points.map((point, k) => {
      const miss = misses[k]!;
      const result = miss > 0 ? null : results[next++];
      const judged = result === null || result === undefined ? null : judge(result, pipes[k]!);
      history.push({ evaluation: history.length + 1, point, judged });
      if (miss > 0) return FORBIDDEN * unit * miss - bestScore(history, task.startScore);
      return judged === null ? Number.POSITIVE_INFINITY : -judged.score;
    });
  };
  const outcome = await minimise(searchOf(task), valuesOf, (best: Best | null, evaluations) =>
    tell(evaluations, best === null ? null : -best.value),
  );
  return { outcome, history };
}

/** By how much the worst of the constraints is missed; 0 and less: all are met. */
export function worstMiss(
  constraints: readonly Constraint[],
  draft: Parameters<Constraint['miss']>[0],
): number {
  return Math.max(-1, ...constraints.map((one) => one.miss(draft)));
}
