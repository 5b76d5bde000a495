/**
 * Worker threads for studies of many runs. Jobs are taken from a sequence of any length as threads become free, so
 * that no more than a few per thread are in memory; they are handed on as they finish or in their order. Results do
 * not depend on the number of threads: jobs are pure, and each carries its place in the sequence.
 *
 * A job that a fault ended (a dead thread, want of memory, a defect) is done once more on a fresh thread, as faults may
 * pass; one that ends so again has failed with the exit code of a fault.
 */

import { setMaxListeners } from 'node:events';
import { fileURLToPath } from 'node:url';
import { Piscina } from 'piscina';
import type { Job, JobKind, JobResult } from './jobs.ts';
import { failureOf, isFault, type Outcome, repeated } from './outcome.ts';
import { programFile } from './program-file.ts';

/** A job that has ended, with its place in the sequence. */
export interface Finished<Kind extends JobKind> {
  readonly index: number;
  readonly job: Job<Kind>;
  readonly outcome: Outcome<JobResult<Kind>>;
}

export type Jobs<Kind extends JobKind> = Iterable<Job<Kind>> | AsyncIterable<Job<Kind>>;

export interface Pool {
  readonly threads: number;
  /** Does one job. Rejects only when the signal is aborted. */
  one<Kind extends JobKind>(job: Job<Kind>, signal?: AbortSignal): Promise<Outcome<JobResult<Kind>>>;
  /** Does all jobs, handed on as they finish. Ends with the signal's reason when that is aborted. */
  asFinished<Kind extends JobKind>(
    jobs: Jobs<Kind>,
    signal?: AbortSignal,
  ): AsyncGenerator<Finished<Kind>, void>;
  /** The same, handed on in the order of the sequence. */
  inOrder<Kind extends JobKind>(jobs: Jobs<Kind>, signal?: AbortSignal): AsyncGenerator<Finished<Kind>, void>;
  /** Ends the threads; whatever they are at is lost. */
  close(): Promise<void>;
}

/** Jobs per thread that are taken from the sequence at most before their results are handed on. */
const JOBS_PER_THREAD = 2;

/** What threads run, `thread.cts` as it is built. */
const THREAD = 'src/study/work/thread.cjs';

/** Opens a pool; `thread` is what its threads run. */
export function openPool(threads: number, thread: URL = programFile(THREAD)): Pool {
  const threadsOf = (count: number): Piscina =>
    new Piscina({
      filename: fileURLToPath(thread),
      name: 'work',
      minThreads: count,
      maxThreads: count,
    });
  const piscina = threadsOf(threads);
  const fresh = new Set<Piscina>();
  let closed = false;
  const one = async <Kind extends JobKind>(
    job: Job<Kind>,
    signal?: AbortSignal,
  ): Promise<Outcome<JobResult<Kind>>> => {
    const first = await attempt(piscina, job, signal);
    // Threads that are ended with the pool have no fault.
    if (closed || !isFault(first)) return first;
    const spare = threadsOf(1);
    fresh.add(spare);
    try {
      const second = await attempt(spare, job, signal);
      return second.ok || !isFault(second) ? second : { ok: false, failure: repeated(second.failure) };
    } finally {
      fresh.delete(spare);
      await spare.destroy();
    }
  };
  const limit = JOBS_PER_THREAD * threads;
  return {
    threads,
    one,
    asFinished: (jobs, signal) => finishedJobs(one, jobs, limit, false, signal),
    inOrder: (jobs, signal) => finishedJobs(one, jobs, limit, true, signal),
    close: async () => {
      closed = true;
      await Promise.all([piscina, ...fresh].map((each) => each.destroy()));
    },
  };
}

/** Does a job on some thread. Rejects only when the signal is aborted. */
async function attempt<Kind extends JobKind>(
  piscina: Piscina,
  job: Job<Kind>,
  signal?: AbortSignal,
): Promise<Outcome<JobResult<Kind>>> {
  signal?.throwIfAborted();
  try {
    return await piscina.run(job, { signal: signal ?? null });
  } catch (error) {
    signal?.throwIfAborted();
    // The thread itself has died, of want of memory for instance; Piscina starts another.
    return { ok: false, failure: failureOf(error) };
  }
}

async function* finishedJobs<Kind extends JobKind>(
  one: Pool['one'],
  jobs: Jobs<Kind>,
  limit: number,
  ordered: boolean,
  signal: AbortSignal | undefined,
): AsyncGenerator<Finished<Kind>, void> {
  const stop = new AbortController();
  const stopped = signal === undefined ? stop.signal : AbortSignal.any([signal, stop.signal]);
  // Every job under way listens to it, and a machine of many cores has many.
  setMaxListeners(0, stopped);
  const source = iteratorOf(jobs);
  /** Jobs under way, and in order also those that wait for one before them. */
  const open = new Map<number, Promise<Finished<Kind>>>();
  let taken = 0;
  let handedOn = 0;
  let pull: Promise<IteratorResult<Job<Kind>>> | null = null;
  let exhausted = false;
  const start = async (index: number, job: Job<Kind>): Promise<Finished<Kind>> => {
    return { index, job, outcome: await one(job, stopped) };
  };
  try {
    for (;;) {
      signal?.throwIfAborted();
      if (pull === null && !exhausted && open.size < limit) pull = source.next();
      if (pull === null && open.size === 0) return;
      const next = ordered ? open.get(handedOn) : undefined;
      const waiting: readonly Promise<Finished<Kind>>[] = ordered
        ? next === undefined
          ? []
          : [next]
        : [...open.values()];
      // A source may wait for results before it names the next job, so neither is waited for alone.
      const event = await Promise.race([...waiting, ...(pull === null ? [] : [pull])]);
      if ('outcome' in event) {
        open.delete(event.index);
        handedOn += 1;
        yield event;
        continue;
      }
      pull = null;
      if (event.done === true) {
        exhausted = true;
        continue;
      }
      const running = start(taken, event.value);
      // Whoever awaits it hears of an abort; until then it must not count as unhandled.
      running.catch(() => {});
      open.set(taken, running);
      taken += 1;
    }
  } finally {
    stop.abort();
    pull?.catch(() => {});
    await Promise.allSettled(open.values());
    await source.return?.();
  }
}

/** Steps through a sequence of either sort. */
export function iteratorOf<Item>(items: Iterable<Item> | AsyncIterable<Item>): AsyncIterator<Item> {
  if (Symbol.asyncIterator in items) return items[Symbol.asyncIterator]();
  const iterator = items[Symbol.iterator]();
  return {
    next: async () => iterator.next(),
    return: async () => iterator.return?.() ?? { done: true, value: undefined },
  };
}
