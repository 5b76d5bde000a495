/**
 * Runs an ensemble's pieces on threads or on lenders. A finished piece goes into the journal before it counts; what is
 * kept went through JSON in any case, so that a run that was broken off, one over a queue and one at a stretch end alike.
 */

import { rmSync } from 'node:fs';
import type { MemberSweep } from '../../findings/member-bands.ts';
import type { SweepRow } from '../../findings/row.ts';
import { type KeptJournal, openKeptJournal } from '../work/journal.ts';
import { resultOrThrow } from '../work/outcome.ts';
import type { Pool } from '../work/pool.ts';
import type { GroupResult } from '../work/run-sweep.ts';
import {
  type Ensemble,
  ensembleJournal,
  memberCase,
  memberCount,
  type Piece,
  type Refusal,
} from './ensemble.ts';

/** What the journal keeps of a piece. */
export interface KeptPiece {
  readonly rows: readonly SweepRow[];
  readonly failures: GroupResult['failures'];
}

export interface KeptPieces extends KeptJournal<KeptPiece> {
  close(): void;
  /** Takes the journal away, its rows being in other files. */
  remove(): void;
}

/** Opens or makes the journal; with `replace` that of another ensemble gives way. */
export function openKeptPieces(path: string, ensemble: Ensemble, replace: boolean): KeptPieces {
  const clear = replace ? () => rmSync(path) : null;
  const { journal, done } = openKeptJournal<KeptPiece>(path, ensembleJournal(ensemble), clear);
  return {
    journal,
    done,
    close: () => journal.close(),
    remove: () => rmSync(path, { force: true }),
  };
}

/** Speeds of the pieces that are done. */
export function speedsDone(pieces: readonly Piece[], done: ReadonlyMap<string, KeptPiece>): number {
  return pieces.reduce((sum, { name, speeds }) => sum + (done.has(name) ? speeds.length : 0), 0);
}

/** Pieces that are still to be done, in their order. */
export const openPieces = (
  pieces: readonly Piece[],
  done: ReadonlyMap<string, KeptPiece>,
): readonly Piece[] => pieces.filter(({ name }) => !done.has(name));

/** Jobs of pieces, each member's case made when its first piece is asked for. */
function* jobsOf(ensemble: Ensemble, pieces: readonly Piece[]) {
  let last: { readonly of: string; readonly subject: ReturnType<typeof memberCase> } | null = null;
  for (const { draft, member, speeds } of pieces) {
    const of = `${draft} ${member}`;
    if (last === null || last.of !== of) last = { of, subject: memberCase(ensemble, draft, member) };
    const { subject } = last;
    yield { kind: 'speed-group' as const, input: { subject, speeds, brief: true } };
  }
}

export async function runEnsemble(
  ensemble: Ensemble,
  pieces: readonly Piece[],
  use: {
    /** Threads, or lenders. */
    readonly pool: Pick<Pool, 'asFinished'>;
    readonly kept: Pick<KeptPieces, 'journal' | 'done'>;
    readonly signal?: AbortSignal;
    /** Hears of the speeds finished so far, those in the journal included. */
    readonly advance?: (speeds: number) => void;
  },
): Promise<void> {
  const { journal, done } = use.kept;
  const open = openPieces(pieces, done);
  let speeds = speedsDone(pieces, done);
  for await (const { index, outcome } of use.pool.asFinished(jobsOf(ensemble, open), use.signal)) {
    const piece = open[index]!;
    const result = resultOrThrow(outcome);
    const kept: KeptPiece =
      'records' in result
        ? { rows: result.records.map(({ row }) => row), failures: result.failures }
        : {
            rows: [],
            failures: piece.speeds.map((speedRpm) => ({ speedRpm, reason: result.reason })),
          };
    journal.append(piece.name, kept);
    done.set(piece.name, JSON.parse(JSON.stringify(kept)));
    speeds += piece.speeds.length;
    use.advance?.(speeds);
  }
}

/** Each draft's members as sweeps, of what is done; a member without a finished piece has no rows. */
export function memberSweeps(
  { drafts }: Ensemble,
  { pieces, refusals }: { readonly pieces: readonly Piece[]; readonly refusals: readonly Refusal[] },
  done: ReadonlyMap<string, KeptPiece>,
): readonly (readonly MemberSweep[])[] {
  const found = drafts.map((one, draft) =>
    Array.from({ length: memberCount(one) }, (_, member) => ({
      member,
      rows: [] as SweepRow[],
      failures: [] as { speedRpm: number; reason: string }[],
      refused: refusals.find((other) => other.draft === draft && other.member === member)?.reason ?? '',
    })),
  );
  for (const { draft, member, name } of pieces) {
    const kept = done.get(name);
    const sweep = found[draft]?.[member];
    if (kept === undefined || sweep === undefined) continue;
    sweep.rows.push(...kept.rows);
    sweep.failures.push(...kept.failures);
  }
  for (const sweep of found.flat()) sweep.rows.sort((a, b) => a.speed_rpm - b.speed_rpm);
  return found;
}
