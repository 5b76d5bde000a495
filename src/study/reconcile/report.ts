/** A reconciliation as plain data: its document, and what the page shows. */

import {
  type InputMembers,
  type MeasuredGroup,
  type ReconcileAnswer,
  reconcileAnswer,
} from '../../findings/answers/reconcile.ts';
import { percentilesOf } from '../../findings/percentile.ts';
import { type Members, membersAt } from '../ensemble/members.ts';
import { valueOfScore } from '../ensemble/spread.ts';
import { modelError } from './discrepancy.ts';
import { looseAt } from './looseness.ts';
import type { Datum } from './question.ts';
import { byGroup, overridesAt, type Reconciled } from './reconcile.ts';

export interface ReconcileReport {
  readonly schemaVersion: 1;
  readonly kind: 'reconciled';
  readonly program: string;
  readonly name: string;
  /** Overrides that were in force, the air of the day among them. */
  readonly set: readonly string[];
  readonly files: readonly string[];
  readonly cell: number;
  readonly members: { readonly asked: number; readonly whole: number; readonly unsettled: number };
  /** By how much spreads were stretched against false correlations [-]. */
  readonly stretched: number;
  readonly groups: readonly MeasuredGroup[];
  readonly answer: ReconcileAnswer;
  /** The middle of all inputs as `--set` takes them. */
  readonly central: readonly string[];
}

export function reconcileReport(found: Reconciled): ReconcileReport {
  const { plan, after, stretched } = found;
  const torque = after.observed.map(
    (speeds) => speeds.reduce((sum, { row }) => sum + (row?.torque_nm ?? 0), 0) / speeds.length,
  );
  const groups = measuredGroups(found);
  const unsettled = after.observed.filter((speeds) =>
    speeds.some(({ row }) => row?.settled === false),
  ).length;
  return {
    schemaVersion: 1,
    kind: 'reconciled',
    program: plan.program,
    name: plan.subject.name,
    set: plan.set,
    files: plan.files.map(({ name }) => name),
    cell: plan.cell,
    members: { asked: plan.count, whole: after.z.length, unsettled },
    stretched,
    groups,
    answer: reconcileAnswer(inputMembers(found), groups, torque),
    central: overridesAt(plan.inputs, found.centralScores),
  };
}

/** The members after, for later bands. */
export const membersAfter = ({ plan, after }: Reconciled): Members =>
  membersAt(
    plan.inputs,
    after.z.map((scores) => scores.slice(0, plan.inputs.length)),
  );

function inputMembers({ plan, question, before, after, centralScores }: Reconciled): readonly InputMembers[] {
  const all = [
    ...plan.inputs.map(({ together, ...input }) => ({
      ...input,
      loose: false,
      together: together?.group ?? null,
      value: (score: number): number => valueOfScore(input, score),
    })),
    ...question.loose.map((one) => ({
      path: one.name,
      unit: one.unit,
      reason: one.reason,
      loose: true,
      together: null,
      value: (score: number): number => looseAt(one, score),
    })),
  ];
  return all.map(({ path, unit, reason, loose, together, value }, k) => ({
    ...{ path, unit, reason, loose, together },
    before: before.z.map((scores) => value(scores[k]!)),
    after: after.z.map((scores) => value(scores[k]!)),
    middle: value(centralScores[k]!),
  }));
}

function measuredGroups({
  question,
  before,
  after,
  base,
  central,
  scales,
}: Reconciled): readonly MeasuredGroup[] {
  const { groups } = question;
  const columns = (rows: readonly (readonly number[])[]) =>
    byGroup(
      groups,
      (rows[0] ?? []).map((_, k) => percentilesOf(rows.map((row) => row[k]!))),
    );
  const [was, is] = [columns(before.predicted), columns(after.predicted)];
  const [bases, centrals] = [byGroup(groups, base), byGroup(groups, central)];
  return groups.map((group, g) => {
    const model = modelError(group);
    return {
      kind: group.kind,
      name: group.name,
      rpm: group.rpm,
      scale: scales[g]!,
      points: group.data.map(({ x, value, error }: Datum, k) => ({
        x,
        value,
        error,
        allowed: Math.hypot(error, model),
        before: was[g]![k]!,
        after: is[g]![k]!,
        base: bases[g]![k]!,
        central: centrals[g]![k]!,
      })),
    };
  });
}

/** What of the reconciled inputs belongs to the engine's own file, and what to the pipe or the run. */
export function splitCentral(central: readonly string[]): {
  readonly engine: readonly string[];
  readonly others: readonly string[];
} {
  return {
    engine: central.filter((text) => text.startsWith('engine.')),
    others: central.filter((text) => !text.startsWith('engine.')),
  };
}
