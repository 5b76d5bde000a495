/**
 * The search itself: CMA-ES over the quantities in the unit cube, each point a pipe that is run unless the drawing alone
 * forbids it. The search minimises, so it is told minus the score.
 */

import type { Case } from '../../model/case.ts';
import type { Pipe } from '../../model/pipe.ts';
import { cmaEs } from '../search/cma-es.ts';
import { type Best, minimise, type Point, type SearchOutcome } from '../search/search.ts';
import type { Constraint } from '../work/constraints.ts';
import type { Asked, Evaluator } from './evaluator.ts';
import { meshed } from './mesh.ts';
import { type Judged, judge, judgedSpeeds } from './objective.ts';
import { type AimQuantity, pipeAt } from './quantities.ts';

export interface SearchTask {
  readonly subject: Case;
  readonly start: Pipe;
  readonly quantities: readonly AimQuantity[];
  readonly constraints: readonly Constraint[];
  readonly target: number;
  readonly cells: number;
  readonly from: Point;
  /** Torque of the start, which penalties are measured in [Nm]. */
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

export async function search(
  task: SearchTask,
  evaluator: Evaluator,
  tell: (evaluations: number, best: number | null) => void,
): Promise<Found> {
  const { subject, start, quantities, constraints, target, cells, unit } = task;
  const history: Tried[] = [];
  const valuesOf = async (points: readonly Point[], batch: number): Promise<readonly number[]> => {
    const pipes = points.map((point) => pipeAt(start, quantities, point));
    const misses = pipes.map((pipe) => worstMiss(constraints, { engine: subject.engine, pipe }));
    const asked = pipes.flatMap((pipe, k): Asked[] =>
      (misses[k] as number) > 0
        ? []
        : [
            {
              name: `search ${batch + 1}.${k + 1}`,
              subject: meshed(subject, pipe, { cells, speeds: judgedSpeeds(target), quick: true }),
            },
          ],
    );
    const results = await evaluator.results(asked);
    let next = 0;
    return points.map((point, k) => {
      const miss = misses[k] as number;
      const result = miss > 0 ? null : results[next++];
      const judged = result === null || result === undefined ? null : judge(result, target, unit);
      history.push({ evaluation: history.length + 1, point, judged });
      if (miss > 0) return FORBIDDEN * unit * miss - bestScore(history, task.startScore);
      return judged === null ? Number.POSITIVE_INFINITY : -judged.score;
    });
  };
  const outcome = await minimise(
    cmaEs({
      start: task.from,
      sigma: STEP,
      seed: task.seed,
      mostEvaluations: task.mostDrafts,
      valueTolerance: 2e-4 * unit,
      pointTolerance: 2e-3,
    }),
    valuesOf,
    (best: Best | null, evaluations) => tell(evaluations, best === null ? null : -best.value),
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
