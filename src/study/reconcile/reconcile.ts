/**
 * Finds which of a case's uncertain inputs explain what was measured: members drawn over the plausible ranges are run at the
 * measured speeds and moved by the smoother, four times, and run once more as they then are. What the data cannot tell stays
 * as wide as it was; what no member explains makes the model's own error larger (`discrepancy.ts`) and moves little.
 */

import { cholesky, solveLower } from '../ensemble/correlations.ts';
import { memberScores } from '../ensemble/scores.ts';
import { overrideAtScore, type UncertainInput } from '../ensemble/uncertain-inputs.ts';
import { randomSource } from '../search/random.ts';
import type { KeptState } from '../work/kept-state.ts';
import type { ObservedSpeed } from '../work/observed.ts';
import { errorCovariance, likeliestScale } from './discrepancy.ts';
import type { ReconcilePlan } from './plan.ts';
import { bestOffset, predictedData } from './predicted.ts';
import { type DataGroup, type Question, questionOf } from './question.ts';
import { type Bench, runBase, runMembers } from './run-members.ts';
import { ALPHAS, assimilate, centred } from './smoother.ts';

type Rows = readonly (readonly number[])[];

/** Members at one stage, those that failed left out. */
export interface Stage {
  /** Normal scores of inputs, then of what is left free; `z[member][…]`. */
  readonly z: Rows;
  readonly predicted: Rows;
  readonly observed: readonly (readonly ObservedSpeed[])[];
}

export interface Reconciled {
  readonly plan: ReconcilePlan;
  readonly question: Question;
  readonly before: Stage;
  readonly after: Stage;
  /** The case as it is, and with the middle of every input after. */
  readonly base: readonly number[];
  readonly central: readonly number[];
  readonly centralScores: readonly number[];
  /** How many times the model's usual error each group takes [-]. */
  readonly scales: readonly number[];
  /** By how much all spreads were stretched against false correlations [-]. */
  readonly stretched: number;
  /** Members that were refused or failed at some speed, on the way. */
  readonly lost: number;
}

/** Of the perturbations of the data; any number would do, one is kept so that results stay the same. */
const SEED = 29;
/** Fewer members than this are none. */
const LEAST_LEFT = 12;

/** A study that came to nothing; the message says why. */
export class ReconcileFailure extends Error {
  override readonly name = 'ReconcileFailure';
  readonly exitCode = 4;
}

/** Runs of members in all: the four steps and the last. */
export const runsOf = ({ count }: ReconcilePlan): number => (ALPHAS.length + 1) * count + 1;

export async function reconcile(plan: ReconcilePlan, bench: Bench): Promise<Reconciled> {
  const { inputs, count } = plan;
  const { question, base } = await asked(plan, bench);
  const drawn = [...inputs, ...question.loose.map(({ name }) => ({ path: name, together: null }))];
  const starts = base.map(({ state }) => state);
  const before = await stageOf(
    { plan, question },
    memberScores(drawn, count),
    { step: 0, starts: () => starts },
    bench,
  );
  const scales = scalesOf(question, before.predicted);
  const errors = question.groups.map((group, k) => cholesky(errorCovariance(group, scales[k]!)));
  const whitened = (values: readonly number[]): readonly number[] =>
    byGroup(question.groups, values).flatMap((part, k) => solveLower(errors[k]!, part));
  const data = whitened(question.groups.flatMap((group) => group.data.map(({ value }) => value)));
  let stage = before;
  let stretched = 1;
  for (const [index, alpha] of ALPHAS.entries()) {
    const random = randomSource(SEED, index);
    const { z, predicted, observed } = stage;
    const moved = assimilate({ z, predicted: predicted.map(whitened), data, alpha, random });
    stretched *= moved.stretched;
    // A member goes on with the fields that it had: it has changed less than the members differ.
    const own = (k: number) => observed[k]!.map(({ state }) => state);
    stage = await stageOf({ plan, question }, moved.z, { step: index + 1, starts: own }, bench);
  }
  const { mean } = centred(stage.z);
  const member = { name: 'central', set: overridesAt(inputs, mean), starts };
  const [middle = []] = await runMembers(
    plan,
    [member],
    { speeds: question.speeds, mostCycles: CYCLES.last },
    bench,
  );
  return {
    plan,
    question,
    before,
    after: stage,
    base: predictedData(
      question,
      base,
      question.loose.map(() => 0),
    ),
    central: predictedData(question, middle, mean.slice(inputs.length)),
    centralScores: mean,
    scales,
    stretched,
    lost: count - stage.z.length,
  };
}

/** What is asked, with what the case as it is shows of it; a trace of unknown offset is laid upon that first. */
async function asked({ files, subject, ...plan }: ReconcilePlan, bench: Bench) {
  const { targetSpeed } = subject.run;
  const { speeds } = questionOf(files, targetSpeed, () => 0);
  const base = await runBase({ files, subject, ...plan }, speeds, bench);
  const question = questionOf(files, targetSpeed, (trace, speed) => {
    const turn = base[speed]?.pressures[speeds[speed]!.pressures.indexOf(trace.at)];
    return turn === undefined || turn.length === 0 ? 0 : bestOffset(trace.pressure, turn);
  });
  return { question, base };
}

/**
 * Cycles that a member takes at most at a speed, when it first leaves the fields of the case, on the way, and in the end.
 * What creeps is not yet at its end on the way, and goes on from there at the next step.
 */
const CYCLES = { first: 40, between: 16, last: 40 } as const;

/** Runs members of given scores at all speeds; those that fail at one drop out. */
async function stageOf(
  { plan, question }: { readonly plan: ReconcilePlan; readonly question: Question },
  z: Rows,
  {
    step,
    starts,
  }: { readonly step: number; readonly starts: (member: number) => readonly (KeptState | null)[] },
  bench: Bench,
): Promise<Stage> {
  const { inputs } = plan;
  const members = z.map((scores, k) => ({
    name: `${step}/${k}`,
    set: overridesAt(inputs, scores),
    starts: starts(k),
  }));
  const mostCycles = step === 0 ? CYCLES.first : step === ALPHAS.length ? CYCLES.last : CYCLES.between;
  const observed = await runMembers(plan, members, { speeds: question.speeds, mostCycles }, bench);
  const isWhole = (speeds: readonly ObservedSpeed[]): boolean =>
    speeds.length > 0 && speeds.every(({ row }) => row !== null);
  const whole = observed.flatMap((speeds, k) => (isWhole(speeds) ? { z: z[k]!, observed: speeds } : []));
  if (whole.length < LEAST_LEFT)
    throw new ReconcileFailure(
      `Only ${whole.length} of ${z.length} members could be computed at all the measured speeds.`,
    );
  return {
    z: whole.map((one) => one.z),
    observed: whole.map((one) => one.observed),
    predicted: whole.map((one) => predictedData(question, one.observed, one.z.slice(inputs.length))),
  };
}

export const overridesAt = (
  inputs: readonly UncertainInput[],
  scores: readonly number[],
): readonly string[] => inputs.map((input, k) => overrideAtScore(input, scores[k]!));

function scalesOf({ groups }: Question, predicted: Rows): readonly number[] {
  let from = 0;
  return groups.map((group) => {
    const part = predicted.map((row) => row.slice(from, from + group.data.length));
    from += group.data.length;
    return likeliestScale(group, part);
  });
}

/** Values of all data, group by group. */
export function byGroup<T>(groups: readonly DataGroup[], values: readonly T[]): readonly (readonly T[])[] {
  let from = 0;
  return groups.map(({ data }) => {
    const part = values.slice(from, from + data.length);
    from += data.length;
    return part;
  });
}
