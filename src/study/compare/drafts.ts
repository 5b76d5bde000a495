/**
 * The drafts of a comparison: cases that are swept, and sweeps that are finished already, in the order in which they were
 * named. Groups of speeds that were done before are taken from a journal.
 */

import type { OpenedFile } from '../../case/load.ts';
import type { SweepResult } from '../../engine/read/result.ts';
import type { Case } from '../../model/case.ts';
import { runSweeps, sweepsSoFar } from '../sweep/run-sweeps.ts';
import type { KeptGroups } from '../sweep/sweep-journal.ts';
import type { Pool } from '../work/pool.ts';

/** A draft before it is run, or one that is done. */
export type Draft =
  | {
      readonly kind: 'case';
      readonly file: string;
      readonly name: string;
      readonly subject: Case;
      /** What it was made of, for members of it. */
      readonly opened: OpenedFile;
      readonly set: readonly string[];
    }
  | { readonly kind: 'finished'; readonly file: string; readonly name: string; readonly sweep: SweepResult };

/** The case of a draft. */
export const caseOfDraft = (draft: Draft): Case => (draft.kind === 'case' ? draft.subject : draft.sweep.case);

/** Cases that are to be swept, in their order. */
export const casesToSweep = (drafts: readonly Draft[]): readonly Case[] =>
  drafts.flatMap((draft) => (draft.kind === 'case' ? [draft.subject] : []));

export interface SweepUse {
  readonly pool: Pool;
  readonly program: string;
  readonly kept: KeptGroups;
  readonly signal?: AbortSignal;
  readonly advance?: (speeds: number) => void;
}

export async function sweptDrafts(drafts: readonly Draft[], use: SweepUse): Promise<readonly SweepResult[]> {
  return inOrder(drafts, await runSweeps(casesToSweep(drafts), use));
}

/** What a comparison that was broken off has: the speeds of its journal. */
export function draftsSoFar(
  drafts: readonly Draft[],
  { program, kept }: Pick<SweepUse, 'program' | 'kept'>,
): readonly SweepResult[] {
  return inOrder(drafts, sweepsSoFar(casesToSweep(drafts), program, kept.done));
}

function inOrder(drafts: readonly Draft[], swept: readonly SweepResult[]): readonly SweepResult[] {
  let next = 0;
  return drafts.map((draft) => (draft.kind === 'case' ? swept[next++]! : draft.sweep));
}
