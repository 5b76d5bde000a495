/**
 * Lends threads to whichever studies are up on a server. Each piece is checked as a file would be, computed, and its
 * result put on the study's queue of results before the piece counts as done: a lender may be ended at any moment, and a
 * piece whose lender is gone is given to another by the queue. Studies of another version, or from a machine that
 * computes otherwise in the last digit, are not served, with a word.
 */

import { hostname } from 'node:os';
import { setTimeout as wait } from 'node:timers/promises';
import type { Worker } from 'bullmq';
import { quoted } from '../../case/text/printable.ts';
import { keptGroup } from '../map/map.ts';
import type { Job } from '../work/jobs.ts';
import { FAULT, type Outcome } from '../work/outcome.ts';
import type { Parcel } from '../work/parcel.ts';
import type { Pool } from '../work/pool.ts';
import type { GroupResult } from '../work/run-sweep.ts';
import { type Announcement, announced } from './announcement.ts';
import { type Answer, checksumOf, MOST_ANSWER, plain, refusal } from './answer.ts';
import { arithmeticOf } from './arithmetic.ts';
import { leftBehind } from './clean-up.ts';
import { MOST_STALLS } from './crew.ts';
import { received } from './parcel.ts';
import { GONE, resultQueue, type Server, workQueue } from './server.ts';

/** Between looks for studies [ms]. */
const LOOK = 500;
/** A lender that has said nothing for so long is gone [ms]. */
const LOCK = 6_000;
const STALL_LOOK = 3_000;

export interface LendTask {
  readonly server: Server;
  readonly pool: Pool;
  readonly program: string;
  readonly signal: AbortSignal;
  readonly say: (text: string) => void;
  /** Hears of pieces as they begin and end. */
  readonly working: (pieces: readonly string[], done: number) => void;
}

/** Serves until the signal is aborted; what is under way then is finished and handed over first. */
export async function lend(task: LendTask): Promise<void> {
  const { server, program, signal, say } = task;
  const arithmetic = arithmeticOf();
  const serving = new Map<string, Worker>();
  const refused = new Set<string>();
  const leaving: Promise<void>[] = [];
  const desk = { under: new Set<string>(), done: 0, arithmetic };
  while (!signal.aborted) {
    const studies = await Promise.race([announced(server), wait(5_000, null)]);
    for (const study of studies ?? []) {
      const { fingerprint, name } = study;
      if (serving.has(fingerprint) || refused.has(fingerprint)) continue;
      const problem = problemOf(study, program, arithmetic);
      if (problem === null) {
        say(`Serving ${study.kind} ${quoted(name, 60)}.`);
        serving.set(fingerprint, serve(task, study, desk));
      } else {
        say(`${quoted(name, 60)} is not served: ${problem}.`);
        refused.add(fingerprint);
      }
    }
    if (studies !== null) {
      server.answered();
      const up = new Set(studies.map(({ fingerprint }) => fingerprint));
      for (const [fingerprint, worker] of serving) {
        if (up.has(fingerprint)) continue;
        serving.delete(fingerprint);
        leaving.push(left(server, fingerprint, worker).catch(() => {}));
        say('A study has ended or was cancelled. Waiting for others; Ctrl-C ends.');
      }
    }
    await wait(LOOK, undefined, { signal }).catch(() => {});
  }
  for (const [fingerprint, worker] of serving) leaving.push(left(server, fingerprint, worker));
  await Promise.allSettled(leaving);
}

/** Leaves a study after what is under way is handed over, without a trace if it has ended. */
async function left(server: Server, fingerprint: string, worker: Worker): Promise<void> {
  await worker.close();
  // A server that is away must not keep a lender.
  await Promise.race([leftBehind(server, fingerprint), wait(3_000, undefined, { ref: false })]);
}

/** Why a study is not served; null: it is. */
function problemOf(study: Announcement, program: string, arithmetic: string): string | null {
  if (study.program !== program) return `it is of ${quoted(study.program)}, and this is ${program}`;
  return study.arithmetic === arithmetic
    ? null
    : 'this machine computes otherwise in the last digit, and its results would not be those of the others';
}

interface Desk {
  readonly under: Set<string>;
  readonly arithmetic: string;
  done: number;
}

function serve(task: LendTask, { fingerprint }: Announcement, desk: Desk): Worker {
  const { server, pool, working } = task;
  const results = server.queue(resultQueue(fingerprint));
  const process = async (data: unknown, id: string): Promise<void> => {
    const draft = String((data as Partial<Parcel> | null)?.draft ?? 'a piece').slice(0, 60);
    desk.under.add(draft);
    working([...desk.under], desk.done);
    try {
      const answer = await answered(task, desk, data);
      await results.add('result', answer, { jobId: id, ...GONE });
      desk.done += 1;
    } finally {
      desk.under.delete(draft);
      working([...desk.under], desk.done);
    }
  };
  return server.worker(workQueue(fingerprint), process, {
    concurrency: pool.threads,
    lockDuration: LOCK,
    stalledInterval: STALL_LOOK,
    maxStalledCount: MOST_STALLS,
    removeOnComplete: { count: 0 },
  });
}

/** Does a piece. A fault is thrown: the queue gives the piece to another lender, once. */
async function answered(
  { pool, program, say }: LendTask,
  { arithmetic }: Desk,
  data: unknown,
): Promise<Answer> {
  const begun = performance.now();
  const taken = received(data, program);
  if (!taken.ok) say(`A piece was refused: ${quoted(taken.refusal, 200)}.`);
  let outcome: Outcome<unknown> = taken.ok ? await computed(pool, taken.job) : refusal(taken.refusal);
  if (!outcome.ok && outcome.failure.exitCode === FAULT) throw new Error(outcome.failure.message);
  if (JSON.stringify(outcome).length > MOST_ANSWER)
    outcome = refusal(`its result would have more than ${MOST_ANSWER} bytes`);
  const sent = plain(outcome);
  const { draft } = (data ?? {}) as Partial<Parcel>;
  return {
    draft: typeof draft === 'string' ? draft.slice(0, 200) : '',
    program,
    arithmetic,
    lender: `${hostname().slice(0, 40)}/${globalThis.process.pid}`,
    seconds: (performance.now() - begun) / 1000,
    finished: new Date().toISOString(),
    crc: checksumOf(sent),
    outcome: sent,
  };
}

/** A group's result without its traces, which nobody asked for. */
async function computed(pool: Pool, job: Job<Parcel['kind']>): Promise<Outcome<unknown>> {
  const outcome = await pool.one(job);
  if (!outcome.ok || job.kind !== 'speed-group') return outcome;
  const { points, failures } = keptGroup(outcome.value as GroupResult);
  return { ok: true, value: { records: points, failures } };
}
