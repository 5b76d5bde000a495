/**
 * A list of groups of speeds as a study over a queue: what a map sends, and whatever else is many sweeps of cases that
 * differ in overrides. Each group has a name that no other of the list has; the fingerprint is of all that the results
 * depend on, so that a list that is asked for again goes on with what is on the server.
 */

import type { SentCase } from '../../case/sent-case.ts';
import { type JournalOf, studyFingerprint } from '../work/journal.ts';
import type { Hire } from './hired.ts';

export interface ListedGroup {
  /** Its name in the list. */
  readonly draft: string;
  /** Speeds of the group [rpm]. */
  readonly speeds: readonly number[];
  /** Exhaust duration in place of the case's [deg]. */
  readonly durationDeg?: number;
  /** Overrides of this group, after those of the case. */
  readonly set?: readonly string[];
  /** A case and speeds of its run in place of the list's, where a list is of several cases. */
  readonly sent?: SentCase;
  readonly runSpeeds?: readonly number[];
}

export interface GroupList {
  /** What the list is of, without its groups. */
  readonly of: JournalOf;
  readonly sent: SentCase;
  /** Speeds of the case's run [rpm], and its cells [m]. */
  readonly runSpeeds: readonly number[];
  readonly cell: number;
  readonly groups: readonly ListedGroup[];
}

/** What such a list asks of lenders; jobs are to come in the order of the groups. */
export function hireForGroups(list: GroupList, { over, say }: Pick<Hire, 'over' | 'say'>): Hire {
  const { kind, name, program, ...rest } = list.of;
  return {
    over,
    say,
    kind,
    name,
    program,
    fingerprint: studyFingerprint({ kind, program, ...rest }),
    parcelOf: (_, index) => {
      const group = list.groups[index]!;
      const { draft, speeds, durationDeg = null, set: own = [], runSpeeds = list.runSpeeds } = group;
      const { document, set } = group.sent ?? list.sent;
      const { cell } = list;
      const sent = { document, set: [...set, ...own] };
      return { kind: 'speed-group', program, draft, ...sent, runSpeeds, speeds, cell, durationDeg };
    },
  };
}
