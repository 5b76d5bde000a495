/**
 * Worker threads for studies of many runs. Jobs are taken from a sequence of any length as threads become free, so
 * that no more than a few per thread are in memory; they are handed on as they finish or in their order. Results do
 * not depend on the number of threads: jobs are pure, and each carries its place in the sequence.
 */

import { fileURLToPath } from 'node:url';
import { Piscina } from 'piscina';
import type { Job, JobKind, JobResult } from './jobs.ts';
import { failureOf, type Outcome } from './outcome.ts';

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
const jobsPerThread = 2;

export function openPool(threads: number): Pool {
  const piscina = new Piscina({
    filename: fileURLToPath(new URL('./thread.cjs', import.meta.url)),
    name: 'work',
    minThreads: 1,
    maxThreads: threads,
    idleTimeout: 60_000,
  });
  const one = async <Kind extends JobKind>(
    job: Job<Kind>,
    signal?: AbortSignal,
  ): Promise<Outcome<JobResult<Kind>>> => {
    signal?.throwIfAborted();
    try {
      return await piscina.run(job, { signal: signal ?? null });
    } catch (error) {
      signal?.throwIfAborted();
      // The thread itself has died, of want of memory for instance; Piscina starts another.
      return { ok: false, failure: failureOf(error) };
    }
  };
  const limit = jobsPerThread * threads;
  return {
    threads,
    one,
    asFinished: (jobs, signal) => finishedJobs(one, jobs, limit, false, signal),
    inOrder: (jobs, signal) => finishedJobs(one, jobs, limit, true, signal),
    close: () => piscina.destroy(),
  };
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

function iteratorOf<Item>(items: Iterable<Item> | AsyncIterable<Item>): AsyncIterator<Item> {
  if (Symbol.asyncIterator in items) return items[Symbol.asyncIterator]();
  const iterator = items[Symbol.iterator]();
  return {
    next: async () => iterator.next(),
    return: async () => iterator.return?.() ?? { done: true, value: undefined },
  };
}
