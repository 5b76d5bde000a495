/** Sweeps of one or more cases through the pool, their groups in one sequence so that no thread waits between cases. */

import type { SweepResult } from '../../engine/read/result.ts';
import type { Case } from '../../model/case.ts';
import { valueOrThrow } from '../work/outcome.ts';
import type { Pool } from '../work/pool.ts';
import { type GroupResult, speedGroups, sweepResult } from '../work/run-sweep.ts';
import type { KeptGroups } from './sweep-journal.ts';

/** Groups of all cases in one sequence; a group's place in it is its name in a journal. */
const groupsOf = (subjects: readonly Case[]) =>
  subjects.flatMap((subject, of) => speedGroups(subject).map((input) => ({ of, input })));

/** Sweeps of the groups that are done, by their place. */
export function sweepsSoFar(
  subjects: readonly Case[],
  program: string,
  done: ReadonlyMap<number, GroupResult>,
): SweepResult[] {
  const groups = groupsOf(subjects);
  return subjects.map((subject, of) =>
    sweepResult(
      subject,
      program,
      groups.flatMap((group, index) => {
        const result = group.of === of ? done.get(index) : undefined;
        return result === undefined ? [] : [result];
      }),
    ),
  );
}

export async function runSweeps(
  subjects: readonly Case[],
  use: {
    readonly pool: Pool;
    readonly program: string;
    readonly signal?: AbortSignal;
    /** Hears of the speeds finished so far, of all cases. */
    readonly advance?: (speeds: number) => void;
    /** Groups that are done already, and where the others go as they finish. */
    readonly kept?: Pick<KeptGroups, 'done' | 'keep'>;
  },
): Promise<SweepResult[]> {
  const groups = groupsOf(subjects);
  const done = new Map<number, GroupResult>();
  let speeds = 0;
  const open: number[] = [];
  for (const [index, { input }] of groups.entries()) {
    const kept = use.kept?.done.get(index);
    if (kept === undefined) open.push(index);
    else {
      done.set(index, kept);
      speeds += input.speeds.length;
    }
  }
  const jobs = open.map((index) => ({ kind: 'speed-group' as const, input: groups[index]!.input }));
  for await (const { index: place, outcome } of use.pool.asFinished(jobs, use.signal)) {
    const index = open[place]!;
    const result = valueOrThrow(outcome);
    use.kept?.keep(index, result);
    done.set(index, result);
    speeds += groups[index]!.input.speeds.length;
    use.advance?.(speeds);
  }
  return sweepsSoFar(subjects, use.program, done);
}
