/**
 * The kinds of work that the pool's threads can do. A kind is a pure function from plain data to plain data: its
 * result depends on its input alone, so it matters neither which thread does it nor when. To add a kind, add a line.
 */

import { runCheck } from '../../verify/check.ts';
import { runDraft } from './draft.ts';
import { runObserved } from './observed.ts';
import { runGroup } from './run-sweep.ts';
import { runLikeness, runTrial } from './trial.ts';

const kinds = {
  draft: runDraft,
  likeness: runLikeness,
  observed: runObserved,
  'speed-group': runGroup,
  trial: runTrial,
  verify: runCheck,
} as const;

export type JobKind = keyof typeof kinds;
export type JobInput<Kind extends JobKind> = Parameters<(typeof kinds)[Kind]>[0];
export type JobResult<Kind extends JobKind> = Awaited<ReturnType<(typeof kinds)[Kind]>>;

/** One piece of work. */
export type Job<Kind extends JobKind = JobKind> = {
  readonly [K in Kind]: { readonly kind: K; readonly input: JobInput<K> };
}[Kind];

/** Does a job on the calling thread. */
export async function runJob<Kind extends JobKind>(job: Job<Kind>): Promise<JobResult<Kind>> {
  const work = kinds[job.kind] as ((input: JobInput<Kind>) => unknown) | undefined;
  if (work === undefined) throw new Error(`There is no kind of job named "${String(job.kind)}".`);
  return (await work(job.input)) as JobResult<Kind>;
}
