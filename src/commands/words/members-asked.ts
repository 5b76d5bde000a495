/** Members that were asked for by flags: which they are, what is told of them as they run, and what lenders get. */

import type { Case } from '../../model/case.ts';
import type { MembersUse } from '../../study/ensemble/computed-members.ts';
import { type Ensemble, ensembleList } from '../../study/ensemble/ensemble.ts';
import { readMembers } from '../../study/ensemble/members-file.ts';
import {
  type PlainDraft,
  type PlannedDraft,
  planEnsemble,
  USUAL_MEMBERS,
} from '../../study/ensemble/plan-ensemble.ts';
import { hireForGroups } from '../../study/over/groups.ts';
import type { Hire } from '../../study/over/hired.ts';
import { studyCell } from '../../study/work/study-cell.ts';
import { UsageError } from '../frame/exit-codes.ts';
import { plainText } from '../frame/plain-text.ts';
import type { Invocation } from '../frame/verb.ts';
import { lenderTalk } from './lender-talk.ts';

type Asked = Pick<Invocation['flags'], 'bands' | 'members' | 'over' | 'cancel' | 'cell'>;

export interface PlannedMembers {
  readonly ensemble: Omit<Ensemble, 'drafts'> & { readonly drafts: readonly PlannedDraft[] };
  /** What is odd about them, a sentence each. */
  readonly warnings: readonly string[];
}

export interface AskedDraft extends Omit<PlainDraft, 'speeds'> {
  /** Before its cell is changed by a flag. */
  readonly subject: Case;
}

/** Null: none were asked for. @throws UsageError @throws FileProblem */
export function plannedMembers(
  flags: Asked,
  drafts: readonly AskedDraft[],
  program: string,
): PlannedMembers | null {
  const { bands, members: file, over, cancel } = flags;
  if (bands === undefined && file === undefined) {
    if (over !== undefined || cancel === true)
      throw new UsageError('--over and --cancel go with --bands here: only members are sent to lenders.');
    return null;
  }
  if (bands !== undefined && file !== undefined)
    throw new UsageError('--bands draws members and --members reads them; give one of the two.');
  const plain = drafts.map(({ name, opened, set, subject }) => ({
    name,
    opened,
    set,
    speeds: subject.run.speeds,
  }));
  const from = file === undefined ? { count: bands ?? USUAL_MEMBERS } : { members: readMembers(file) };
  const { drafts: planned, unknown, unused } = planEnsemble(plain, from);
  const cell = Math.max(...drafts.map(({ subject }) => studyCell(subject, flags.cell)));
  const name = drafts.map((one) => one.name).join(', ');
  return {
    ensemble: { kind: 'bands', name, program, cell, drafts: planned },
    warnings: [
      ...(unknown.length === 0
        ? []
        : [
            `${unknown.length} columns of the members are no inputs here and are left out: ${unknown.join(', ')}.`,
          ]),
      ...(unused.length === 0
        ? []
        : [
            `Members do not follow the measuring errors of ${unused.join(', ')} in full: a setting, or bound to others.`,
          ]),
      ...(planned.every(({ inputs }) => inputs.length === 0)
        ? ['Nothing of this is uncertain: all members are alike.']
        : []),
    ],
  };
}

/** Lenders of the members, with no pieces for them: whose work is taken off a server. Null: there is none. */
export function hiringOf(planned: PlannedMembers | null, { over }: Asked): Hire | null {
  if (planned === null || over === undefined) return null;
  return hireForGroups(ensembleList(planned.ensemble, []), { over, say: () => {} });
}

/** How members are run, followed and told of. @param path of their journal */
export function membersUse(
  path: string,
  {
    flags,
    terminal,
    signal,
    pool,
  }: Pick<Invocation, 'flags' | 'terminal' | 'signal'> & Pick<MembersUse, 'pool'>,
): MembersUse {
  return {
    pool,
    over: flags.over,
    path,
    replace: flags.overwrite,
    signal,
    ...lenderTalk(terminal),
    warn: (text) => terminal.warning(plainText(text)),
    progress: (total, before) => terminal.progress({ label: 'members', things: 'speeds', total, before }),
  };
}
