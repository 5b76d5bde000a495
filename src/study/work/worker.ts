/** What a thread of the pool runs: one job after another. A job that throws ends in a failure, not in a dead thread. */

import { type Job, type JobKind, type JobResult, runJob } from './jobs.ts';
import { failureOf, type Outcome } from './outcome.ts';

export async function work<Kind extends JobKind>(job: Job<Kind>): Promise<Outcome<JobResult<Kind>>> {
  try {
    return { ok: true, value: await runJob(job) };
  } catch (error) {
    return { ok: false, failure: failureOf(error) };
  }
}
