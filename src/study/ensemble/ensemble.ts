/**
 * An ensemble: drafts, each with the members that it is run as, and the pieces of work that they are cut into. A piece is some
 * neighbouring speeds of one member of one draft, as of a sweep. Cells are those of studies: on them members differ from one another as on
 * finer ones long before their numbers are the same.
 *
 * Each member starts as a sweep does, from cold on coarse cells: started from the settled fields of the case as it is it takes
 * twice the cycles, because those fields hold another pipe's heat and the change has to travel out first.
 */

import { caseOf, type OpenedFile } from '../../case/load.ts';
import { sentCase } from '../../case/sent-case.ts';
import { CaseProblems } from '../../case/text/problem.ts';
import type { Case } from '../../model/case.ts';
import type { GroupList } from '../over/groups.ts';
import type { JournalOf } from '../work/journal.ts';
import { refuseHugeMesh } from '../work/mesh-limit.ts';
import { evenGroups } from '../work/run-sweep.ts';
import { type Members, overridesOf } from './members.ts';

export interface EnsembleDraft {
  readonly name: string;
  readonly opened: OpenedFile;
  /** Overrides in force before those of a member. */
  readonly set: readonly string[];
  /** Speeds that members are run at [rpm]. */
  readonly speeds: readonly number[];
  readonly members: Members;
}

export interface Ensemble {
  /** What a journal calls it. */
  readonly kind: string;
  readonly name: string;
  readonly program: string;
  /** Cell length of all [m]. */
  readonly cell: number;
  readonly drafts: readonly EnsembleDraft[];
}

export interface Piece {
  readonly draft: number;
  readonly member: number;
  readonly speeds: readonly number[];
  /** Its name in a journal and on a queue. */
  readonly name: string;
}

/** A member that the reader of case files takes none of. */
export interface Refusal {
  readonly draft: number;
  readonly member: number;
  readonly reason: string;
}

/** Members of a draft. */
export const memberCount = ({ members }: EnsembleDraft): number => members.values.length;

/** The case of a member, with the ensemble's speeds and cells. @throws CaseProblems */
export function memberCase(ensemble: Ensemble, draft: number, member: number): Case {
  const { opened, set, speeds, members } = ensemble.drafts[draft]!;
  const made = caseOf(opened, [...set, ...overridesOf(members, member)]);
  const run = { ...made.run, speeds, cell: ensemble.cell };
  // What a page lists of a single case would be carried by every piece through the threads.
  const subject = { ...made, run, inputs: [], assumed: [], warnings: [] };
  refuseHugeMesh(subject);
  return subject;
}

/** All pieces of work, by draft, member and speed, and the members that cannot be. */
export function piecesOf(ensemble: Ensemble): {
  readonly pieces: readonly Piece[];
  readonly refusals: readonly Refusal[];
} {
  const pieces: Piece[] = [];
  const refusals: Refusal[] = [];
  for (const [draft, one] of ensemble.drafts.entries())
    for (let member = 0; member < memberCount(one); member += 1) {
      const subject = memberOrReason(ensemble, draft, member);
      if (typeof subject === 'string') refusals.push({ draft, member, reason: subject });
      else
        for (const { speeds } of evenGroups(subject))
          pieces.push({ draft, member, speeds, name: pieceName(draft, member, speeds) });
    }
  return { pieces, refusals };
}

const pieceName = (draft: number, member: number, speeds: readonly number[]): string =>
  `draft ${draft + 1}, member ${member + 1}, ${speeds.join(' ')} rpm`;

function memberOrReason(ensemble: Ensemble, draft: number, member: number): Case | string {
  try {
    return memberCase(ensemble, draft, member);
  } catch (error) {
    if (!(error instanceof CaseProblems)) throw error;
    return error.problems[0]?.message ?? 'it is refused';
  }
}

/** What a journal of it is of: everything that results depend on. */
export function ensembleJournal({ kind, name, program, cell, drafts }: Ensemble): JournalOf {
  const what = {
    cell,
    drafts: drafts.map(({ opened, set, speeds, members }) => ({
      subject: caseOf(opened, set),
      speeds,
      members,
    })),
  };
  return { kind, name, program, what };
}

/** The pieces as they go over a queue. */
export function ensembleList(ensemble: Ensemble, pieces: readonly Piece[]): GroupList {
  const sent = ensemble.drafts.map(({ opened, set }) => sentCase(opened, set));
  const [first] = ensemble.drafts;
  return {
    of: ensembleJournal(ensemble),
    sent: sent[0]!,
    runSpeeds: first?.speeds ?? [],
    cell: ensemble.cell,
    groups: pieces.map(({ draft, member, speeds, name }) => ({
      draft: name,
      speeds,
      sent: sent[draft]!,
      runSpeeds: ensemble.drafts[draft]!.speeds,
      set: overridesOf(ensemble.drafts[draft]!.members, member),
    })),
  };
}
