/**
 * Runs pipes by name and content through the pool and the journal: what the journal has is not run again, so that an aim that was
 * broken off goes on by asking the same questions.
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
  /** Results in the order asked. */
  results(asked: readonly Asked[]): Promise<readonly DraftResult[]>;
  readonly done: number;
  /** What of the journal was dropped on opening, in words. */
  readonly dropped: string;
  close(): void;
}

export interface EvaluatorTask {
  readonly journal: string;
  /** What the journal is of. */
  readonly what: JournalOf;
  readonly pool: Pool;
  readonly signal: AbortSignal;
}

export function openEvaluator({ journal: path, what, pool, signal }: EvaluatorTask): Evaluator {
  const known = new Map<string, DraftResult>();
  const journal: Journal<DraftResult> = openJournal<DraftResult>(path, what, (name, result) => {
    known.set(name, result);
  });
  return {
    get done() {
      return journal.count;
    },
    dropped: journal.dropped,
    close: () => journal.close(),
    async results(asked) {
      // An aim gone on with more drafts comes to another pipe, whose proof must not be taken for the first one's.
      const named = asked.map(({ name, subject }) => ({
        draft: `${name} ${fingerprintOf({ pipe: subject.pipe, run: subject.run }).slice(0, 12)}`,
        subject,
      }));
      const jobs = named
        .filter(({ draft }) => !known.has(draft))
        .map((input) => ({ kind: 'draft' as const, input }));
      for await (const { job, outcome } of pool.asFinished(jobs, signal)) {
        const { draft } = job.input;
        const result: DraftResult = resultOrThrow(outcome);
        journal.append(draft, result);
        // As the journal brings it back, so that a resumed search is told the same.
        known.set(draft, JSON.parse(JSON.stringify(result)) as DraftResult);
      }
      return named.map(({ draft }) => known.get(draft) as DraftResult);
    },
  };
}
