/**
 * Aiming a pipe at a speed, from start to proof:
 *   1. the given pipe is run at the target; its gas temperature goes into the handbook's proportions
 *   2. the search starts from the better of the two, or from the one asked for, on a coarse mesh
 *   3. the best is rounded to whole millimetres, and the rounded pipe is what counts from there on
 *   4. it is trimmed on the case's own mesh, and run there over a range of speeds with the given pipe and the start
 *   5. sensitivities at the target, and which limits are reached
 */

import type { Pipe } from '../../case/model.ts';
import { type Constraint, constraintList } from '../constraints.ts';
import type { DraftResult } from '../draft.ts';
import type { Evaluator } from './evaluator.ts';
import { edges, reachedLimits } from './limits.ts';
import { cellCount, meshed } from './mesh.ts';
import { judge, judgedSpeeds } from './objective.ts';
import { proved } from './proof.ts';
import { type AimQuantity, aimQuantities, pipeAt, pointOf } from './quantities.ts';
import { type AimChange, type AimedPipe, AimFailure, type AimResult, type AimWish } from './result.ts';
import { roundedPipe } from './rounding.ts';
import { search, worstMiss } from './search.ts';
import { sensitivitiesOf } from './sensitivities.ts';
import { chosenStart } from './start.ts';
import { trimmed } from './trim.ts';

export interface AimWatcher {
  stage(name: 'start' | 'search' | 'proof'): void;
  searched(evaluations: number, best: number | null): void;
}

export async function aim(wish: AimWish, evaluator: Evaluator, watcher: AimWatcher): Promise<AimResult> {
  const { subject, target } = wish;
  const constraints = constraintList(wish.constraints, subject);
  watcher.stage('start');
  const coarse = cellCount(subject, wish.searchCell);
  const { start, startedFrom, gasTemperature, judged } = await chosenStart(wish, coarse, evaluator);
  const quantities = aimQuantities(start, wish.vary);

  watcher.stage('search');
  const found = await search(
    {
      subject,
      start,
      quantities,
      constraints,
      target,
      cells: coarse,
      from: pointOf(start, quantities),
      unit: Math.max(judged.torque, 1e-3),
      startScore: judged.score,
      mostDrafts: wish.mostDrafts,
      seed: wish.seed,
    },
    evaluator,
    watcher.searched,
  );
  const { best, end } = found.outcome;
  // The start itself is not a point of the search.
  const winner = best === null || -best.value <= judged.score ? start : pipeAt(start, quantities, best.point);

  watcher.stage('proof');
  const chosen = await bestRounded(wish, winner, constraints, { coarse, unit: judged.torque }, evaluator);
  const fine = cellCount(subject, subject.run.cell);
  const final = await trimmed(
    wish,
    { pipe: chosen.pipe, quantities, constraints, cells: fine, unit: judged.torque },
    evaluator,
  );
  const proofs = await proved(wish, [subject.pipe, start, final], { fine, unit: judged.torque }, evaluator);
  const [given, begun, after] = proofs as [AimedPipe, AimedPipe, AimedPipe];
  const sensitivities = await sensitivitiesOf({ subject, pipe: after.pipe, target, cells: fine }, evaluator);
  return {
    startedFrom,
    gasTemperature,
    given,
    start: begun,
    after,
    coarse: {
      start: judged.score,
      best: best === null ? Number.NaN : -best.value,
      rounded: chosen.score,
    },
    changes: changesOf(quantities, { given: subject.pipe, start, after: after.pipe }),
    sensitivities,
    history: found.history,
    end,
    limits: [
      ...reachedLimits({ engine: subject.engine, pipe: after.pipe }, quantities, constraints, after, target),
      ...edges(sensitivities, after.judged?.torque ?? Number.NaN),
    ],
  };
}

interface Rounded {
  readonly pipe: Pipe;
  readonly score: number;
}

async function bestRounded(
  wish: AimWish,
  winner: Pipe,
  constraints: readonly Constraint[],
  { coarse, unit }: { coarse: number; unit: number },
  evaluator: Evaluator,
): Promise<Rounded> {
  const { subject, target } = wish;
  const ways = (['nearest', 'down', 'up'] as const).map((way) => ({ way, pipe: roundedPipe(winner, way) }));
  const allowed = ways.filter(({ pipe }) => worstMiss(constraints, { engine: subject.engine, pipe }) <= 0);
  if (allowed.length === 0) throw new AimFailure('In whole millimetres no pipe keeps to the constraints.');
  const results = await evaluator.results(
    allowed.map(({ way, pipe }) => ({
      name: `rounded ${way}`,
      subject: meshed(subject, pipe, { cells: coarse, speeds: judgedSpeeds(target), quick: true }),
    })),
  );
  const scored = allowed.flatMap(({ pipe }, k) => {
    const judged = judge(results[k] as DraftResult, target, unit);
    return judged === null ? [] : [{ pipe: named(pipe, wish), score: judged.score }];
  });
  const [best] = scored.sort((a, b) => b.score - a.score);
  if (best === undefined) throw new AimFailure('The pipe in whole millimetres could not be run.');
  return best;
}

function named(pipe: Pipe, { subject, target }: AimWish): Pipe {
  return { ...pipe, name: `${subject.pipe.name}, aimed at ${target} rpm` };
}

function changesOf(
  quantities: readonly AimQuantity[],
  { given, start, after }: { given: Pipe; start: Pipe; after: Pipe },
): readonly AimChange[] {
  // Sections of the handbook's pipe are not those of the given one; then the change is told from the start.
  const alike = given.sections.length === start.sections.length;
  return quantities.map((quantity) => {
    const value = quantity.read(after);
    const span = quantity.high - quantity.low;
    const limit =
      value <= quantity.low + 0.01 * span
        ? quantity.lowText
        : value >= quantity.high - 0.01 * span
          ? quantity.highText
          : '';
    return {
      name: quantity.name,
      start: quantity.read(start),
      before: quantity.read(alike ? given : start),
      after: value,
      limit,
    };
  });
}
