/** A comparison as its file has it: rows and summaries; traces are each draft's own sweep's. */

import type { SweepResult } from '../../engine/read/result.ts';
import type { CompareAnswer } from '../../findings/answers/compare.ts';

export interface ComparedSweep {
  readonly name: string;
  readonly file: string;
  readonly sweep: SweepResult;
}

export function compareDocument(of: {
  readonly program: string;
  readonly answer: CompareAnswer;
  readonly drafts: readonly ComparedSweep[];
  /** What was changed of the cases; empty: nothing. */
  readonly changed: readonly string[];
  /** What to mind, and where they were not computed alike. */
  readonly notes: readonly string[];
}) {
  const { targetSpeed, band, drafts, unfinished } = of.answer;
  return {
    schemaVersion: 1,
    kind: 'compare',
    program: of.program,
    ...(of.changed.length === 0 ? {} : { changed: of.changed }),
    targetSpeed,
    band,
    unfinished,
    notes: of.notes,
    drafts: of.drafts.map(({ name, file, sweep }, k) => ({
      name,
      file,
      summary: { ...drafts[k]?.summary, name },
      againstFirst: drafts[k]?.lessFirst ?? null,
      open: { torqueBand: drafts[k]?.torqueBandOpen, powerBand: drafts[k]?.powerBandOpen },
      displacement: sweep.displacement,
      outline: sweep.outline,
      case: sweep.case,
      rows: sweep.rows,
      failures: sweep.failures,
    })),
  };
}
