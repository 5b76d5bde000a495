/** Sweeps of one or more cases through the pool, their groups in one sequence so that no thread waits between cases. */

import type { SweepResult } from '../../engine/read/result.ts';
import type { Case } from '../../model/case.ts';
import { valueOrThrow } from '../work/outcome.ts';
import type { Pool } from '../work/pool.ts';
import { type GroupResult, speedGroups, sweepResult } from '../work/run-sweep.ts';
import type { KeptGroups } from './sweep-journal.ts';

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
  const groups = subjects.flatMap((subject, of) => speedGroups(subject).map((input) => ({ of, input })));
  const done: GroupResult[] = [];
  let speeds = 0;
  const open: number[] = [];
  for (const [index, { input }] of groups.entries()) {
    const kept = use.kept?.done.get(index);
    if (kept === undefined) open.push(index);
    else {
      done[index] = kept;
      speeds += input.speeds.length;
    }
  }
  const jobs = open.map((index) => ({ kind: 'speed-group' as const, input: groups[index]!.input }));
  for await (const { index: place, outcome } of use.pool.asFinished(jobs, use.signal)) {
    const index = open[place]!;
    const result = valueOrThrow(outcome);
    use.kept?.keep(index, result);
    done[index] = result;
    speeds += groups[index]!.input.speeds.length;
    use.advance?.(speeds);
  }
  return subjects.map((subject, of) =>
    sweepResult(
      subject,
      use.program,
      done.filter((_, index) => groups[index]?.of === of),
    ),
  );
}
