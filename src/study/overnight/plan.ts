/**
 * What a study comes to before anything runs: which drafts can be built and keep to the constraints. A study of which
 * none does is refused. Of a very large study some thousand drafts spread over it are looked at; the rest when it is
 * their turn.
 */

import { type OpenedStudy, studyProblem } from '../../case/study/study-load.ts';
import { CaseProblems } from '../../case/text/problem.ts';
import { breather } from '../work/breath.ts';
import { type Constraint, constraintList } from '../work/constraints.ts';
import { meshProblem } from '../work/mesh-limit.ts';
import type { Drafts } from './drafts.ts';

/** Drafts looked at before the start at most. */
const LOOKED_AT = 4000;

export type Admission =
  | { readonly kind: 'run' }
  | { readonly kind: 'outside'; readonly reason: string }
  | { readonly kind: 'impossible'; readonly reason: string };

export interface Plan {
  readonly constraints: readonly Constraint[];
  readonly drafts: number;
  /** Of those looked at: to be run, outside the constraints, not to be built. */
  readonly looked: number;
  readonly run: number;
  readonly outside: number;
  readonly impossible: number;
}

/** Whether a draft is to be run. */
export function admission(
  drafts: Drafts,
  index: number,
  constraints: readonly Constraint[],
  outside: 'skip' | 'run',
): Admission {
  try {
    const draft = drafts.caseAt(index);
    const mesh = meshProblem(draft);
    if (mesh !== null) return { kind: 'impossible', reason: mesh };
    const missed = constraints.filter((one) => one.miss(draft) > 0);
    if (missed.length === 0 || outside === 'run') return { kind: 'run' };
    const reason = missed.map((one) => `${one.name} ${one.found(draft)}, allowed ${one.allows}`).join('; ');
    return { kind: 'outside', reason };
  } catch (error) {
    if (!(error instanceof CaseProblems)) throw error;
    return { kind: 'impossible', reason: error.problems[0]?.message ?? 'it cannot be built' };
  }
}

/** @throws CaseProblems where no draft can be run */
export async function planOf(lead: OpenedStudy, drafts: Drafts, signal?: AbortSignal): Promise<Plan> {
  const { study, base } = lead;
  const constraints = constraintList(study.constraints, base);
  const fixed = study.varied.findIndex(
    (one) =>
      study.constraints.passageFixed &&
      [...one.paths, ...one.opposite].some((path) => /^\s*engine\s*\.\s*passage\b/.test(path)),
  );
  if (fixed >= 0) {
    throw studyProblem(lead, ['vary', fixed], 'varies the passage, which the constraints keep fixed');
  }
  const looked = Math.min(drafts.count, LOOKED_AT);
  const seen = { run: 0, outside: 0, impossible: 0 };
  let outside = '';
  let impossible = '';
  const breathe = breather(signal);
  for (let k = 0; k < looked; k += 1) {
    await breathe();
    const index = Math.floor((k * drafts.count) / looked);
    const answer = admission(drafts, index, constraints, study.outside);
    seen[answer.kind] += 1;
    if (answer.kind === 'outside' && outside === '') outside = answer.reason;
    if (answer.kind === 'impossible' && impossible === '') impossible = answer.reason;
  }
  if (seen.run === 0 && outside !== '') {
    const hint = 'widen a constraint or the ranges; "outside: run" runs them all the same';
    throw studyProblem(lead, ['constraints'], `no draft keeps to all of them; the first: ${outside}`, hint);
  }
  if (seen.run === 0) {
    const where = study.varied.length > 0 ? 'vary' : 'pipes';
    throw studyProblem(lead, [where], `no draft can be built; the first: ${impossible}`);
  }
  return { constraints, drafts: drafts.count, looked, ...seen };
}
