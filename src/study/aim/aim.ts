/**
 * Aiming a pipe at a speed, from start to proof:
 *   1. the given pipe is run at the target; its gas temperature goes into the handbook's proportions
 *   2. the search starts from the better of the two, or from the one asked for, on a coarse mesh
 *   3. its leaders are rounded to whole millimetres and run on the case's own mesh; the best of them is trimmed there
 *   4. the trimmed pipe is run there over a range of speeds beside the given pipe and the start
 *   5. sensitivities at the target, and which limits are reached
 */

import type { Pipe } from '../../model/pipe.ts';
import { constraintList } from '../work/constraints.ts';
import type { Evaluator } from './evaluator.ts';
import { bestFinalist } from './finalists.ts';
import { reachedLimits } from './limits.ts';
import { cellCount } from './mesh.ts';
import { proved } from './proof.ts';
import { type AimQuantity, aimQuantities, pointOf } from './quantities.ts';
import type { AimChange, AimedPipe, AimResult, AimWish } from './result.ts';
import { search } from './search.ts';
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
  watcher.stage('proof');
  const fine = cellCount(subject, subject.run.cell);
  const shared = { quantities, constraints, cells: fine, unit: judged.torque };
  const chosen = await bestFinalist(wish, { ...shared, start, history: found.history }, evaluator);
  const final = await trimmed(wish, { ...shared, pipe: chosen }, evaluator);
  const proofs = await proved(wish, [subject.pipe, start, final], { fine, unit: judged.torque }, evaluator);
  const [given, begun, after] = proofs as [AimedPipe, AimedPipe, AimedPipe];
  const sensitivities = await sensitivitiesOf({ subject, pipe: after.pipe, target, cells: fine }, evaluator);
  return {
    startedFrom,
    gasTemperature,
    given,
    start: begun,
    after,
    changes: changesOf(quantities, { given: subject.pipe, start, after: after.pipe }),
    sensitivities,
    history: found.history,
    end: found.outcome.end,
    limits: reachedLimits(
      { engine: subject.engine, pipe: after.pipe },
      quantities,
      constraints,
      after,
      target,
    ),
  };
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
