/**
 * Runs members at the measured speeds on threads. Finished members
 * go into the journal before they count, and through JSON in any case, so that a run that was broken off ends as one that
 * was not.
 */

import { caseOf } from '../../case/load.ts';
import { unlessRefused } from '../../case/text/problem.ts';
import type { Case } from '../../model/case.ts';
import type { KeptJournal } from '../work/journal.ts';
import type { KeptState } from '../work/kept-state.ts';
import type { ObservedJob, ObservedSpeed, WatchedSpeed } from '../work/observed.ts';
import { valueOrThrow } from '../work/outcome.ts';
import type { Pool } from '../work/pool.ts';
import { withRun } from '../work/run-settings.ts';
import type { ReconcilePlan } from './plan.ts';

/** What members showed that are done, by name. */
export type KeptMembers = KeptJournal<readonly ObservedSpeed[]>;

export interface Bench {
  readonly pool: Pool;
  /** Lenders, who run the members in place of the pool; absent: there are none. */
  readonly crew?: Crew | undefined;
  readonly kept: {
    readonly journal: Pick<KeptMembers['journal'], 'append'>;
    readonly done: KeptMembers['done'];
  };
  readonly signal?: AbortSignal | undefined;
  /** Hears of each member that is done. */
  readonly advance?: (() => void) | undefined;
}

export interface Crew {
  readonly pool: Pick<Pool, 'asFinished'>;
  /** Hears which member a piece of work is, before it is asked for. */
  readonly named: (input: ObservedJob, member: NamedMember) => void;
}

/** A member that is to be run. */
export interface NamedMember {
  /** Its name in the journal. */
  readonly name: string;
  /** Its overrides. */
  readonly set: readonly string[];
  /** Fields that it starts from, by speed; null: cold. */
  readonly starts: readonly (KeptState | null)[];
}

/** The case as it is at all speeds, each from a cold start. */
export async function runBase(
  { subject }: ReconcilePlan,
  speeds: readonly WatchedSpeed[],
  { pool, signal }: Bench,
): Promise<readonly ObservedSpeed[]> {
  const jobs = speeds.map((speed) => ({
    kind: 'observed' as const,
    input: { subject, speeds: [speed], starts: [null], mostCycles: subject.run.maxCycles },
  }));
  const observed: ObservedSpeed[] = [];
  for await (const { outcome } of pool.inOrder(jobs, signal)) observed.push(...valueOrThrow(outcome));
  return throughJson(observed);
}

/** What members show at all speeds; an empty list: the case's reader refuses the member. */
export async function runMembers(
  plan: ReconcilePlan,
  members: readonly NamedMember[],
  at: { readonly speeds: readonly WatchedSpeed[]; readonly mostCycles: number },
  { pool, crew, kept, signal, advance }: Bench,
): Promise<readonly (readonly ObservedSpeed[])[]> {
  const results = members.map(({ name }) => kept.done.get(name) ?? null);
  for (const result of results) if (result !== null) advance?.();
  const open = members.flatMap((_, k) => (results[k] === null ? k : []));
  const runs: number[] = [];
  // Cases are made as threads ask for them.
  function* jobs() {
    for (const k of open) {
      const { set, starts } = members[k]!;
      const subject = memberCase(plan, set);
      if (subject === null) {
        results[k] = [];
        advance?.();
        continue;
      }
      runs.push(k);
      const input = { subject, starts, ...at };
      crew?.named(input, members[k]!);
      yield { kind: 'observed' as const, input };
    }
  }
  for await (const { index, outcome } of (crew?.pool ?? pool).asFinished(jobs(), signal)) {
    const k = runs[index]!;
    const speeds = throughJson(valueOrThrow(outcome));
    const { name } = members[k]!;
    kept.journal.append(name, speeds);
    kept.done.set(name, speeds);
    results[k] = speeds;
    advance?.();
  }
  return results.map((result) => result ?? []);
}

const memberCase = ({ opened, set, cell }: ReconcilePlan, own: readonly string[]): Case | null =>
  unlessRefused(() => withRun(caseOf(opened, [...set, ...own]), { cell }));

const throughJson = (speeds: readonly ObservedSpeed[]): readonly ObservedSpeed[] =>
  JSON.parse(JSON.stringify(speeds));
