/**
 * What drafts have in common: the speeds that all of them were run over. Drafts are judged there alone, as a draft that was run
 * further, or not broken off, is not the better for it. One without any row is left out.
 */

import type { SpeedSpan } from '../band.ts';
import { type ComparedDraft, type NamedRows, summarise } from './compare-summary.ts';

export interface SharedDrafts {
  /** Null: every draft was run over the same range. */
  readonly over: SpeedSpan | null;
  /** Those with a row, in their order; null: no speed is common to them. */
  readonly drafts: readonly ComparedDraft[] | null;
}

export function sharedDrafts(drafts: readonly NamedRows[], target: number | null): SharedDrafts {
  const run = drafts.filter(({ rows }) => rows.length > 0);
  const from = Math.max(...run.map(({ rows }) => rows[0]?.speed_rpm ?? 0));
  const to = Math.min(...run.map(({ rows }) => rows.at(-1)?.speed_rpm ?? 0));
  if (run.length === 0 || to < from) return { over: null, drafts: null };
  const isAll = run.every(({ rows }) => rows[0]?.speed_rpm === from && rows.at(-1)?.speed_rpm === to);
  return {
    over: isAll ? null : { from, to },
    drafts: run.map(({ name, rows }) => {
      const within = rows.filter(({ speed_rpm }) => speed_rpm >= from && speed_rpm <= to);
      return { ...summarise({ name, rows: within }, target, null), lessFirst: null };
    }),
  };
}
