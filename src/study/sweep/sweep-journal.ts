/**
 * What keeps the finished groups of a sweep until all are done. A group's result, traces and all, is written as the
 * threads hand it over (the same serialisation, in base64), so that a sweep that was broken off and one that was not
 * end with the same files. The journal names the case with its settings and the program; it goes when the sweep is done.
 */

import { rmSync } from 'node:fs';
import { deserialize, serialize } from 'node:v8';
import type { Case } from '../../model/case.ts';
import { type JournalOf, openJournal, openOrClear } from '../work/journal.ts';
import type { GroupResult } from '../work/run-sweep.ts';

export interface KeptGroups {
  /** Results by the place of the group in the sweep, those kept since opening among them. */
  readonly done: ReadonlyMap<number, GroupResult>;
  /** What of the journal was dropped on opening, in one sentence; empty: nothing. */
  readonly dropped: string;
  keep(group: number, result: GroupResult): void;
  close(): void;
  /** Takes the journal away, its groups being in the sweep's files. */
  remove(): void;
}

/** Opens or makes the journal; with `replace` that of another sweep gives way. */
export function openKeptGroups(
  path: string,
  sweep: { readonly subject: Case; readonly program: string },
  replace: boolean,
): KeptGroups {
  const { subject, program } = sweep;
  return openGroupsOf(path, { kind: 'sweep', name: subject.name, program, what: subject }, replace);
}

/** The same for the groups of whatever a journal says that it is of. */
export function openGroupsOf(path: string, of: JournalOf, replace: boolean): KeptGroups {
  const done = new Map<number, GroupResult>();
  const open = () => openJournal<string>(path, of, (group, result) => read(done, group, result));
  const journal = openOrClear(open, replace ? () => rmSync(path) : null);
  return {
    done,
    dropped: journal.dropped,
    keep(group, result) {
      journal.append(String(group), serialize(result).toString('base64'));
      done.set(group, result);
    },
    close: () => journal.close(),
    remove: () => rmSync(path, { force: true }),
  };
}

/** Enters a group; false: what the journal has of it cannot be read. */
function read(done: Map<number, GroupResult>, group: string, result: string): boolean {
  try {
    done.set(Number(group), deserialize(Buffer.from(result, 'base64')));
    return true;
  } catch {
    return false;
  }
}
