/** An ensemble from its journal to its sweeps: what a verb that has bands calls. Threads of its own, or lenders over a queue. */

import type { MemberSweep } from '../../findings/member-bands.ts';
import { hireForGroups } from '../over/groups.ts';
import { type LenderTalk, withLenders } from '../over/hired.ts';
import type { Pool } from '../work/pool.ts';
import { type Ensemble, ensembleList, memberCount, piecesOf } from './ensemble.ts';
import { memberSweeps, openKeptPieces, openPieces, runEnsemble, speedsDone } from './run-ensemble.ts';

export interface MembersUse extends LenderTalk {
  /** Threads, where no queue is named. */
  readonly pool: Pool;
  /** Address of a queue's server. */
  readonly over?: string | undefined;
  /** Where the journal stands; with `replace` that of another ensemble gives way. */
  readonly path: string;
  readonly replace: boolean;
  readonly signal: AbortSignal;
  readonly warn: (text: string) => void;
  /** Follows the speeds. */
  readonly progress: (
    total: number,
    before: number,
  ) => { readonly advance: (done: number, note?: string) => void; readonly finish: () => void };
}

export interface ComputedMembers {
  /** Members of each draft. */
  readonly sweeps: readonly (readonly MemberSweep[])[];
  /** Takes the journal away. */
  readonly remove: () => void;
}

export async function computedMembers(ensemble: Ensemble, use: MembersUse): Promise<ComputedMembers> {
  const plan = piecesOf(ensemble);
  const { pieces } = plan;
  const kept = openKeptPieces(use.path, ensemble, use.replace);
  try {
    if (kept.journal.dropped !== '') use.warn(kept.journal.dropped);
    const total = pieces.reduce((sum, { speeds }) => sum + speeds.length, 0);
    const before = speedsDone(pieces, kept.done);
    const members = ensemble.drafts.reduce((sum, draft) => sum + memberCount(draft), 0);
    const cells = Number((1000 * ensemble.cell).toPrecision(4));
    use.message(`${members} members: ${total} speeds in all, on cells of ${cells} mm.`);
    if (before > 0) use.message(`Going on: ${before} of ${total} speeds of members are done already.`);
    await computed(ensemble, pieces, kept, { ...use, total, before });
    return { sweeps: memberSweeps(ensemble, plan, kept.done), remove: kept.remove };
  } finally {
    kept.close();
  }
}

async function computed(
  ensemble: Ensemble,
  pieces: ReturnType<typeof piecesOf>['pieces'],
  kept: ReturnType<typeof openKeptPieces>,
  use: MembersUse & { readonly total: number; readonly before: number },
): Promise<void> {
  const { over, warn, signal } = use;
  const open = openPieces(pieces, kept.done);
  const hiring =
    over === undefined || open.length === 0
      ? null
      : hireForGroups(ensembleList(ensemble, open), { over, say: warn });
  await withLenders(hiring, use, async (hired) => {
    const progress = use.progress(use.total, use.before);
    try {
      await runEnsemble(ensemble, pieces, {
        pool: hired?.pool ?? use.pool,
        kept,
        signal,
        advance: (speeds) => progress.advance(speeds, hired?.book.text),
      });
    } finally {
      progress.finish();
    }
  });
}
