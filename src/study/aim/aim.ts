/**
 * Aiming a pipe at a speed, from start to proof:
 *   1. the given pipe is run at the target; its gas temperature goes into the handbook's proportions
 *   2. step by step, from the header alone to all lengths and bores, a search on a coarse mesh (`walk.ts`)
 *   3. the pipe of each step is run on the case's own mesh over a range of speeds and with its header a little off, beside the
 *      given pipe and the start; sensitivities of the last at the target, and which limits are reached
 */

import { constraintList } from '../work/constraints.ts';
import { changesOf } from './changes.ts';
import { dimensionsOf } from './dimensions.ts';
import type { Evaluator } from './evaluator.ts';
import { reachedLimits } from './limits.ts';
import { cellCount } from './mesh.ts';
import { builtOtherwise, proofOf } from './proof.ts';
import { answered, both, together } from './question.ts';
import type { AimResult } from './result.ts';
import { sensitivityQuestion } from './sensitivities.ts';
import { openings } from './start.ts';
import { type AimWatcher, type Course, type Stepped, walked } from './walk.ts';
import type { AimWish } from './wish.ts';

export async function aim(wish: AimWish, evaluator: Evaluator, watcher: AimWatcher): Promise<AimResult> {
  const { subject } = wish;
  const coarse = cellCount(subject, wish.searchCell);
  watcher.stage('start', 2);
  const opened = await openings(wish, coarse, evaluator);
  const course: Course = {
    wish,
    opened,
    constraints: constraintList(wish.constraints, subject),
    coarse,
    fine: cellCount(subject, subject.run.cell),
    evaluator,
    watcher,
  };
  return await provedResult(course, await walked(course));
}

async function provedResult(course: Course, stepped: readonly Stepped[]): Promise<AimResult> {
  const { wish, opened, constraints, fine: cells, evaluator, watcher } = course;
  const { judge } = opened;
  const { subject, target } = wish;
  const last = stepped.at(-1)!;
  const handbook = last.startedFrom === 'handbook' ? (opened.handbook?.pipe ?? null) : null;
  const shown = [
    { name: 'given', pipe: subject.pipe },
    ...(handbook === null ? [] : [{ name: 'handbook', pipe: handbook }]),
    ...stepped.map(({ id, pipe }) => ({ name: id, pipe })),
  ];
  const question = both(
    both(
      together(shown.map((one) => proofOf(wish, { ...one, cells, judge }))),
      together(stepped.map(({ id, pipe }) => builtOtherwise(wish, { name: id, pipe, cells, judge }))),
    ),
    sensitivityQuestion({ subject, pipe: last.pipe, target, cells }),
  );
  watcher.stage('proof', question.asked.length);
  const [[proofs, builds], sensitivities] = await answered(question, evaluator, (done) =>
    watcher.ran(done, null),
  );
  const proofAt = (k: number) => proofs[k]!;
  const given = proofAt(0);
  const start = handbook === null ? given : proofAt(1);
  const offset = proofs.length - stepped.length;
  const steps = stepped.map(({ id, pipe, history, end }, k) => ({
    ...proofAt(offset + k),
    id,
    drafts: history.length,
    end,
    dimensions: dimensionsOf(subject.pipe, pipe),
    build: builds[k]!,
  }));
  const after = proofAt(proofs.length - 1);
  return {
    startedFrom: last.startedFrom,
    gasTemperature: opened.gasTemperature,
    given,
    start,
    steps,
    after,
    changes: changesOf(last.quantities, { given: subject.pipe, start: start.pipe, after: last.pipe }),
    sensitivities,
    history: stepped.flatMap(({ history }) => history).map((one, k) => ({ ...one, evaluation: k + 1 })),
    end: last.end,
    limits: reachedLimits(
      { engine: subject.engine, pipe: last.pipe },
      last.quantities,
      constraints,
      after,
      target,
    ),
  };
}
