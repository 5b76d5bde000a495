/**
 * A study of many drafts, run through the pool with every finished draft in the journal before it counts. With a screen
 * all drafts go through a first pass at a coarse mesh and few speeds, and the best share through the full one. What a
 * draft is depends on its number alone, so a broken study goes on with nothing lost and nothing done twice.
 */

import type { OpenedStudy } from '../../case/study/study-load.ts';
import { breather } from '../work/breath.ts';
import type { DraftJob, DraftResult } from '../work/draft.ts';
import type { Job } from '../work/jobs.ts';
import { type Journal, openJournal } from '../work/journal.ts';
import { resultOrThrow } from '../work/outcome.ts';
import type { Parcel } from '../work/parcel.ts';
import type { Pool } from '../work/pool.ts';
import type { Drafts } from './drafts.ts';
import { journalOf } from './fingerprint.ts';
import { admission, type Plan } from './plan.ts';
import { orderByScore } from './ranking.ts';
import { Tally } from './tally.ts';

/** What a study says while it runs. */
export interface Watcher {
  /** A journal was gone on with: so many drafts are done, and what of it was dropped, in words. */
  opened(done: number, dropped: string): void;
  /** One draft took so long [ms]; `left` more are to come in this pass. */
  timed(milliseconds: number, left: number): void;
  /** `done` of `total` drafts of a pass; the best so far. */
  advanced(pass: Pass, done: number, total: number, best: Leader | null): void;
}

export type Pass = 'screen' | 'full';

export interface Leader {
  readonly name: string;
  readonly score: number;
}

export interface OvernightTask {
  readonly lead: OpenedStudy;
  readonly drafts: Drafts;
  readonly plan: Plan;
  readonly target: number;
  readonly journal: string;
  readonly program: string;
  /** Threads, or lenders. */
  readonly pool: Pick<Pool, 'asFinished'>;
  readonly watcher: Watcher;
  readonly signal: AbortSignal;
}

/** Runs what is not done yet. On interruption ends with the signal's reason, the journal whole. */
export async function runOvernight(task: OvernightTask, tally: Tally): Promise<void> {
  const { lead, drafts, plan, watcher } = task;
  const { screen, outside } = lead.study;
  const journal = openStudyJournal(task, tally);
  try {
    watcher.opened(journal.count, journal.dropped);
    const admitted = function* (): Generator<number> {
      for (let index = 0; index < drafts.count; index += 1) {
        const answer = admission(drafts, index, plan.constraints, outside);
        if (answer.kind === 'run') yield index;
        else tally.mark(index, answer.kind === 'outside' ? 'outside' : 'failed', answer.reason);
      }
    };
    const expected = Math.round((plan.run / plan.looked) * drafts.count);
    if (screen === null) {
      await runPass(task, tally, journal, 'full', admitted(), expected);
      return;
    }
    await runPass(task, tally, journal, 'screen', admitted(), expected);
    const kept = keptBy(tally, screen.keep, screen.check);
    await runPass(task, tally, journal, 'full', kept, kept.length);
  } finally {
    journal.close();
  }
}

/** A tally for a study, empty. */
export function newTally({ lead, drafts, target }: Pick<OvernightTask, 'lead' | 'drafts' | 'target'>): Tally {
  return new Tally(lead.study, drafts.count, target);
}

function openStudyJournal(task: OvernightTask, tally: Tally): Journal<DraftResult> {
  return openJournal<DraftResult>(task.journal, journalOf(task), (draft, result) => {
    const { pass, index } = placeOf(draft);
    tally.take(index, result, pass === 'screen');
  });
}

/** Name of a draft in the journal. */
export function journalName(pass: Pass, index: number): string {
  return `${pass} ${index + 1}`;
}

export function placeOf(draft: string): { readonly pass: Pass; readonly index: number } {
  const [pass, number] = draft.split(' ');
  return { pass: pass === 'screen' ? 'screen' : 'full', index: Number(number) - 1 };
}

/** The best share of the screened drafts in the order of their numbers; the others are marked. */
function keptBy(tally: Tally, keep: number, all: boolean): readonly number[] {
  const order = orderByScore(tally.count, (index) => tally.screenScore(index));
  const most = all ? order.length : Math.ceil(keep * order.length);
  for (const index of order.slice(most)) tally.mark(index, 'screened');
  return order.slice(0, most).sort((a, b) => a - b);
}

async function runPass(
  task: OvernightTask,
  tally: Tally,
  journal: Journal<DraftResult>,
  pass: Pass,
  indices: Iterable<number>,
  expected: number,
): Promise<void> {
  const { drafts, pool, signal, watcher } = task;
  let done = 0;
  let best: Leader | null = null;
  const count = (index: number): void => {
    done += 1;
    const score = pass === 'screen' ? tally.screenScore(index) : tally.score(index);
    if (score !== null && (best === null || score > best.score)) best = { name: drafts.name(index), score };
  };
  const breathe = breather(signal);
  const jobs = async function* (): AsyncGenerator<Job<'draft'>> {
    for (const index of indices) {
      await breathe();
      const draft = journalName(pass, index);
      if (journal.has(draft)) count(index);
      else yield { kind: 'draft', input: jobOf(task, pass, index) };
    }
  };
  const start = performance.now();
  let timed = false;
  for await (const { job, outcome } of pool.asFinished(jobs(), signal)) {
    const { draft } = job.input;
    const { index } = placeOf(draft);
    const result: DraftResult = resultOrThrow(outcome);
    journal.append(draft, result);
    tally.take(index, result, pass === 'screen');
    count(index);
    // The first one says what the rest will take; the other threads are at work meanwhile.
    if (!timed) watcher.timed(performance.now() - start, Math.max(0, expected - done));
    timed = true;
    watcher.advanced(pass, done, Math.max(done, expected), best);
  }
}

/** A draft's job as it is sent to a lender. */
export function parcelOf({ drafts, program }: Pick<OvernightTask, 'drafts' | 'program'>, job: Job): Parcel {
  const { draft, subject } = job.input as DraftJob;
  const { speeds, cell } = subject.run;
  const sent = drafts.sentAt(placeOf(draft).index);
  return { kind: 'draft', program, draft, ...sent, runSpeeds: speeds, speeds, cell, durationDeg: null };
}

function jobOf({ lead, drafts }: OvernightTask, pass: Pass, index: number): DraftJob {
  const subject = drafts.caseAt(index);
  const { screen } = lead.study;
  const draft = journalName(pass, index);
  if (pass === 'full' || screen === null) return { draft, subject };
  return {
    draft,
    subject: { ...subject, run: { ...subject.run, cell: screen.cell, speeds: screen.speeds } },
  };
}
