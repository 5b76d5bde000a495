/**
 * Lenders as if they were threads: takes jobs from a sequence, puts them on the study's queue, and hands their results on
 * as they come. A result leaves the server only after whoever asked for it has taken it in, so a gatherer that is killed
 * loses none. A piece that is neither on the queue nor among the results any more, as after a server that came back
 * without its last words, is put there again; a result that comes twice counts once.
 */

import { createHash } from 'node:crypto';
import type { Queue } from 'bullmq';
import type { Job, JobKind, JobResult } from '../work/jobs.ts';
import { FAULT, type Outcome } from '../work/outcome.ts';
import type { Parcel } from '../work/parcel.ts';
import { type Finished, iteratorOf, type Jobs } from '../work/pool.ts';
import { type Announcement, announce } from './announcement.ts';
import { type Answer, answerProblem } from './answer.ts';
import type { LenderBook } from './lender-book.ts';
import { GONE, resultQueue, type Server, workQueue } from './server.ts';

/** Pieces on the queue at most: enough for any crew, and little to take away again. */
const WINDOW = 400;
const BATCH = 50;
/** Time without news after which the queue is looked at [ms]. */
const QUIET = 3_000;
/** Answers of one piece that are not believed, at most. */
const MOST_UNBELIEVED = 3;
/** A lender that died over a piece so often was ended by it. */
export const MOST_STALLS = 60;

export interface CrewTask {
  readonly server: Server;
  readonly study: Announcement;
  readonly parcelOf: (job: Job, index: number) => Parcel;
  readonly book: LenderBook;
  readonly say: (text: string) => void;
}

export interface Crew {
  asFinished<Kind extends JobKind>(
    jobs: Jobs<Kind>,
    signal?: AbortSignal,
  ): AsyncGenerator<Finished<Kind>, void>;
}

interface Piece {
  readonly index: number;
  readonly job: Job;
  readonly parcel: Parcel;
  unbelieved: number;
}

interface Arrival {
  readonly id: string;
  readonly data: unknown;
  readonly taken: () => void;
}

/** Name of a piece on the queue. */
export function pieceId(draft: string): string {
  return `p${createHash('sha256').update(draft).digest('hex').slice(0, 24)}`;
}

export function openCrew(task: CrewTask): Crew {
  return { asFinished: (jobs, signal) => gathered(task, jobs, signal) };
}

async function* gathered<Kind extends JobKind>(
  task: CrewTask,
  jobs: Jobs<Kind>,
  signal: AbortSignal | undefined,
): AsyncGenerator<Finished<Kind>, void> {
  const { server, study, book } = task;
  const work = server.queue(workQueue(study.fingerprint));
  const results = server.queue(resultQueue(study.fingerprint));
  const open = new Map<string, Piece>();
  const arrivals: Arrival[] = [];
  let wake = (): void => {};
  const aborted = abortOf(signal);
  const worker = server.worker(
    resultQueue(study.fingerprint),
    (data, id) =>
      new Promise<void>((taken) => {
        arrivals.push({ id, data, taken });
        wake();
      }),
    {
      concurrency: 64,
      removeOnComplete: { count: 0 },
      maxStalledCount: 1000,
      // What a killed gatherer had in hand is the next one's within seconds.
      lockDuration: 6_000,
      stalledInterval: 2_000,
    },
  );
  const source = iteratorOf(jobs);
  let count = 0;
  let exhausted = false;
  try {
    await Promise.race([announce(server, study), aborted]);
    for (;;) {
      signal?.throwIfAborted();
      const batch: Piece[] = [];
      while (!exhausted && open.size < WINDOW && batch.length < BATCH && arrivals.length === 0) {
        const next = await source.next();
        if (next.done === true) exhausted = true;
        else {
          const job = next.value as unknown as Job;
          const piece = { index: count, job, parcel: task.parcelOf(job, count), unbelieved: 0 };
          open.set(pieceId(piece.parcel.draft), piece);
          batch.push(piece);
          count += 1;
        }
      }
      if (batch.length > 0) await Promise.race([put(work, batch), aborted]);
      if (exhausted && open.size === 0) return;
      const arrival = arrivals.shift();
      if (arrival === undefined) {
        if (batch.length > 0 && !exhausted && open.size < WINDOW) continue;
        const news = await Promise.race([
          aborted,
          new Promise<true>((resolve) => {
            wake = () => resolve(true);
            if (arrivals.length > 0) resolve(true);
          }),
          new Promise<false>((resolve) => setTimeout(resolve, QUIET, false)),
        ]);
        if (news === false) {
          const failed = await Promise.race([lookedAt(task, work, results, open), aborted]);
          for (const [id, outcome] of failed) {
            const piece = open.get(id) as Piece;
            open.delete(id);
            yield finished<Kind>(piece, outcome);
          }
        }
        continue;
      }
      const piece = open.get(arrival.id);
      if (piece === undefined) {
        // It has been counted already, or is of nobody's asking.
        arrival.taken();
        continue;
      }
      const outcome = believed(task, piece, arrival.data);
      if (outcome === null) {
        arrival.taken();
        await Promise.race([put(work, [piece]), aborted]);
        continue;
      }
      open.delete(arrival.id);
      server.answered();
      book.enter(arrival.data as Answer);
      yield finished<Kind>(piece, outcome);
      arrival.taken();
    }
  } finally {
    for (const { taken } of arrivals) taken();
    void worker.close(true).catch(() => {});
    await source.return?.();
  }
}

function finished<Kind extends JobKind>({ index, job }: Piece, outcome: Outcome<unknown>): Finished<Kind> {
  return { index, job: job as unknown as Job<Kind>, outcome: outcome as Outcome<JobResult<Kind>> };
}

async function put(work: Queue, pieces: readonly Piece[]): Promise<void> {
  await work.addBulk(
    pieces.map(({ parcel }) => ({
      name: parcel.kind,
      data: parcel,
      opts: { jobId: pieceId(parcel.draft), attempts: 2, backoff: { type: 'fixed', delay: 500 }, ...GONE },
    })),
  );
}

/** The outcome that an answer holds; null: it is not believed, and the piece is to be done again. */
function believed({ study, say }: CrewTask, piece: Piece, data: unknown): Outcome<unknown> | null {
  const { program, arithmetic } = study;
  const problem = answerProblem(data, { program, arithmetic, draft: piece.parcel.draft });
  if (problem === null) return (data as Answer).outcome;
  piece.unbelieved += 1;
  say(`An answer for ${piece.parcel.draft} is not taken: ${problem}.`);
  return piece.unbelieved < MOST_UNBELIEVED
    ? null
    : fault(`no answer of a lender could be taken: ${problem}`);
}

/** After a time without news: what has failed is told, what is missing is put on the queue again. */
async function lookedAt(
  { server, study, book }: CrewTask,
  work: Queue,
  results: Queue,
  open: ReadonlyMap<string, Piece>,
): Promise<readonly (readonly [string, Outcome<unknown>])[]> {
  await announce(server, study);
  const counts = await work.getJobCounts('active', 'waiting', 'failed');
  book.running(counts.active ?? 0, await work.getWorkersCount());
  server.answered();
  if ((counts.failed ?? 0) > 0) {
    const failed = (await work.getFailed(0, WINDOW)).filter(({ id }) => id !== undefined && open.has(id));
    for (const job of failed) await job.remove();
    return failed.map(({ id, failedReason }) => [String(id), fault(failedReason ?? 'no reason')] as const);
  }
  const waiting = await results.getJobCounts('waiting', 'active', 'delayed');
  if (Object.values(waiting).every((many) => many === 0)) {
    const pieces = [...open.values()];
    for (let from = 0; from < pieces.length; from += BATCH) await put(work, pieces.slice(from, from + BATCH));
  }
  return [];
}

function fault(reason: string): Outcome<never> {
  const message = `A piece of the work could not be done by the lenders: ${reason.slice(0, 500)}. That is a fault, not a result.`;
  return { ok: false, failure: { name: 'Error', message, exitCode: FAULT, stack: '' } };
}

/** Rejects when the signal is aborted, and never else. */
function abortOf(signal: AbortSignal | undefined): Promise<never> {
  const promise = new Promise<never>((_, reject) => {
    signal?.addEventListener('abort', () => reject(signal.reason), { once: true });
  });
  promise.catch(() => {});
  return promise;
}
