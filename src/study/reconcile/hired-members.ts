/**
 * Members of a reconciliation as pieces of a study over a queue: the case's document with the overrides of a member, what is
 * looked at, and the fields that it starts from. The results are those of threads, byte for byte.
 */

import { sentCase } from '../../case/sent-case.ts';
import type { Hire } from '../over/hired.ts';
import type { Job } from '../work/jobs.ts';
import { studyFingerprint } from '../work/journal.ts';
import type { Parcel } from '../work/parcel.ts';
import { type ReconcilePlan, reconcileJournal } from './plan.ts';
import type { Crew } from './run-members.ts';

export interface HiredMembers {
  readonly hire: Hire;
  /** Whose piece a job is, to be told before it is asked for. */
  readonly named: Crew['named'];
}

export function hireForMembers(plan: ReconcilePlan, { over, say }: Pick<Hire, 'over' | 'say'>): HiredMembers {
  const { name, ...of } = reconcileJournal(plan);
  const sent = sentCase(plan.opened, plan.set);
  const parcels = new WeakMap<object, Parcel>();
  const { kind, program } = of;
  const { cell } = plan;
  return {
    hire: {
      ...{ over, say, kind, name, program },
      fingerprint: studyFingerprint(of),
      parcelOf: (job: Job) => parcels.get(job.input)!,
    },
    named: (input, { name: draft, set }) => {
      const { subject: _, ...watch } = input;
      const speeds = watch.speeds.map(({ rpm }) => rpm);
      const piece = { draft, document: sent.document, set: [...sent.set, ...set], runSpeeds: speeds, speeds };
      parcels.set(input, { kind: 'observed', program, ...piece, cell, durationDeg: null, watch });
    },
  };
}
