/**
 * Lenders as if they were threads: takes jobs from a sequence, puts them on the study's queue, and hands their results on
 * as they come. A result leaves the server only after whoever asked for it has taken it in, so a gatherer that is killed
 * loses none. A piece that is neither on the queue nor among the results any more, as after a server that came back
 * without its last words, is put there again; a result that comes twice counts once.
 */

import { createHash } from 'node:crypto';
import type { Queue, Worker } from 'bullmq';
import type { Job, JobKind, JobResult } from '../work/jobs.ts';
import { FAULT, type Outcome } from '../work/outcome.ts';
import type { Parcel } from '../work/parcel.ts';
import { type Finished, iteratorOf, type Jobs } from '../work/pool.ts';
import { type Announcement, announce } from './announcement.ts';
import { type Answer, answerProblem } from './answer.ts';
import { Inbox, unlessAborted } from './inbox.ts';
import type { LenderBook } from './lender-book.ts';
import { GONE, resultQueue, type Server, workQueue } from './server.ts';

/** Pieces on the queue at most: enough for any crew, and little to take away again. */
const WINDOW = 400;
const BATCH = 50;
/** Between looks at the queue, and time without news after which what is missing is put there again [ms]. */
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
  const inbox = new Inbox<Arrival>();
  const worker = resultsWorker(server, study.fingerprint, inbox);
  let looked = 0;
  const source = pieceSource(task, iteratorOf(jobs as Jobs<JobKind>));
  try {
    await unlessAborted(announce(server, study), signal);
    for (;;) {
      signal?.throwIfAborted();
      if (inbox.isEmpty) {
        const batch = await source.next(Math.min(BATCH, WINDOW - open.size));
        for (const piece of batch) open.set(pieceId(piece.parcel.draft), piece);
        if (batch.length > 0) await unlessAborted(put(work, batch), signal);
        if (source.exhausted && open.size === 0) return;
        if (!source.exhausted && open.size < WINDOW) continue;
        const quiet = !(await inbox.news(QUIET, signal));
        if (quiet) await unlessAborted(missingPut(work, results, open), signal);
        if (!quiet && performance.now() - looked < QUIET) continue;
        looked = performance.now();
        const failed = await unlessAborted(lookedAt(task, work, open), signal);
        for (const [id, outcome] of failed) {
          const piece = open.get(id) as Piece;
          open.delete(id);
          yield finished<Kind>(piece, outcome);
        }
        continue;
      }
      const arrival = inbox.take() as Arrival;
      const piece = open.get(arrival.id);
      // One that is not open has been counted already, or is of nobody's asking.
      const outcome = piece === undefined ? null : believed(task, piece, arrival.data);
      if (piece === undefined || outcome === null) {
        arrival.taken();
        if (piece !== undefined) await unlessAborted(put(work, [piece]), signal);
        continue;
      }
      open.delete(arrival.id);
      server.answered();
      book.enter(arrival.data as Answer);
      yield finished<Kind>(piece, outcome);
      arrival.taken();
    }
  } finally {
    for (let left = inbox.take(); left !== undefined; left = inbox.take()) left.taken();
    void worker.close(true).catch(() => {});
    await source.close();
  }
}

/** Takes results off the queue as they come; one has gone only when `taken` is called. */
function resultsWorker(server: Server, fingerprint: string, inbox: Inbox<Arrival>): Worker {
  return server.worker(
    resultQueue(fingerprint),
    (data, id) => new Promise<void>((taken) => inbox.put({ id, data, taken })),
    {
      concurrency: 64,
      removeOnComplete: { count: 0 },
      maxStalledCount: 1000,
      // What a killed gatherer had in hand is the next one's within seconds.
      lockDuration: 6_000,
      stalledInterval: 2_000,
    },
  );
}

/** Jobs as pieces, numbered in their order. */
function pieceSource({ parcelOf }: CrewTask, source: AsyncIterator<Job>) {
  let count = 0;
  return {
    exhausted: false,
    /** So many pieces, fewer at the end. */
    async next(most: number): Promise<Piece[]> {
      const batch: Piece[] = [];
      while (!this.exhausted && batch.length < most) {
        const next = await source.next();
        if (next.done === true) this.exhausted = true;
        else {
          batch.push({ index: count, job: next.value, parcel: parcelOf(next.value, count), unbelieved: 0 });
          count += 1;
        }
      }
      return batch;
    },
    async close(): Promise<void> {
      await source.return?.();
    },
  };
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

/** How the work stands: who is at it goes into the book, what has failed is told. */
async function lookedAt(
  { server, study, book }: CrewTask,
  work: Queue,
  open: ReadonlyMap<string, Piece>,
): Promise<readonly (readonly [string, Outcome<unknown>])[]> {
  await announce(server, study);
  const counts = await work.getJobCounts('active', 'failed');
  book.running(counts.active ?? 0, await work.getWorkersCount());
  server.answered();
  if ((counts.failed ?? 0) === 0) return [];
  const failed = (await work.getFailed(0, WINDOW)).filter(({ id }) => id !== undefined && open.has(id));
  for (const job of failed) await job.remove();
  return failed.map(({ id, failedReason }) => [String(id), fault(failedReason ?? 'no reason')] as const);
}

/** After a time without news and with no result on its way: what is missing is put on the queue again. */
async function missingPut(work: Queue, results: Queue, open: ReadonlyMap<string, Piece>): Promise<void> {
  const waiting = await results.getJobCounts('waiting', 'active', 'delayed');
  if (Object.values(waiting).some((many) => many > 0)) return;
  const pieces = [...open.values()];
  for (let from = 0; from < pieces.length; from += BATCH) await put(work, pieces.slice(from, from + BATCH));
}

function fault(reason: string): Outcome<never> {
  const message = `A piece of the work could not be done by the lenders: ${reason.slice(0, 500)}. That is a fault, not a result.`;
  return { ok: false, failure: { name: 'Error', message, exitCode: FAULT, stack: '' } };
}
