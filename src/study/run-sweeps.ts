/** Sweeps of one or more cases through the pool, their groups in one sequence so that no thread waits between cases. */

import type { Case } from '../case/model.ts';
import { valueOrThrow } from './outcome.ts';
import type { Pool } from './pool.ts';
import type { SweepResult } from './result.ts';
import { type GroupResult, speedGroups, sweepResult } from './sweep.ts';

export async function runSweeps(
  subjects: readonly Case[],
  use: {
    readonly pool: Pool;
    readonly program: string;
    readonly signal?: AbortSignal;
    /** Hears of the speeds finished so far, of all cases. */
    readonly advance?: (speeds: number) => void;
  },
): Promise<SweepResult[]> {
  const groups = subjects.flatMap((subject, of) => speedGroups(subject).map((input) => ({ of, input })));
  const jobs = groups.map(({ input }) => ({ kind: 'speed-group' as const, input }));
  const done: GroupResult[] = [];
  let speeds = 0;
  for await (const { index, outcome } of use.pool.asFinished(jobs, use.signal)) {
    done[index] = valueOrThrow(outcome);
    speeds += groups[index]?.input.speeds.length ?? 0;
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
