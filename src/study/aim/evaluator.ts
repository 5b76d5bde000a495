/**
 * Runs pipes by their content through the pool and the journal: what the journal has is not run again, so that an aim that was
 * broken off goes on by asking the same questions, and a pipe that two steps ask for is run once.
 */

import type { Case } from '../../model/case.ts';
import { fingerprintOf } from '../work/canonical-json.ts';
import type { DraftResult } from '../work/draft.ts';
import { type Journal, type JournalOf, openJournal } from '../work/journal.ts';
import { resultOrThrow } from '../work/outcome.ts';
import type { Pool } from '../work/pool.ts';

export interface Asked {
  readonly name: string;
  readonly subject: Case;
}

export interface Evaluator {
  /** Results in the order asked; `advance` hears of how many are known so far. */
  results(asked: readonly Asked[], advance?: (done: number) => void): Promise<readonly DraftResult[]>;
  readonly done: number;
  /** What of the journal was dropped on opening, in words. */
  readonly dropped: string;
  close(): void;
}

export interface EvaluatorTask {
  readonly journal: string;
  /** What the journal is of. */
  readonly what: JournalOf;
  readonly pool: Pick<Pool, 'asFinished'>;
  readonly signal: AbortSignal;
}

/** Figures of a fingerprint that names carry: 2^48 of them, for some hundreds of pipes. */
const FIGURES = 12;

/** What a run is of: an aim gone on with more drafts comes to another pipe, whose proof must not be taken for the first one's. */
const contentOf = ({ pipe, run }: Case): string =>
  fingerprintOf({ pipe: { ...pipe, name: '' }, run }).slice(0, FIGURES);

export function openEvaluator({ journal: path, what, pool, signal }: EvaluatorTask): Evaluator {
  const known = new Map<string, DraftResult>();
  const journal: Journal<DraftResult> = openJournal<DraftResult>(path, what, (name, result) => {
    known.set(name.slice(-FIGURES), result);
  });
  return {
    get done() {
      return journal.count;
    },
    dropped: journal.dropped,
    close: () => journal.close(),
    async results(asked, advance) {
      const named = asked.map(({ name, subject }) => ({ name, content: contentOf(subject), subject }));
      const open = new Map(
        named.filter(({ content }) => !known.has(content)).map((one) => [one.content, one]),
      );
      const jobs = [...open.values()].map(({ name, content, subject }) => ({
        kind: 'draft' as const,
        input: { draft: `${name} ${content}`, subject },
      }));
      let done = asked.length - jobs.length;
      advance?.(done);
      for await (const { job, outcome } of pool.asFinished(jobs, signal)) {
        const { draft } = job.input;
        const result: DraftResult = resultOrThrow(outcome);
        journal.append(draft, result);
        // As the journal brings it back, so that a resumed search is told the same.
        known.set(draft.slice(-FIGURES), JSON.parse(JSON.stringify(result)) as DraftResult);
        advance?.(++done);
      }
      return named.map(({ content }) => known.get(content) as DraftResult);
    },
  };
}
