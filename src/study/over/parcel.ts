/**
 * What is sent to a lender: plain data. A case as its document with everything inline, overrides, and settings; nothing
 * in it is run as code and no file is named. On arrival it is read by the same schema as a file, with the same limits, so
 * that a lender computes only what it would take from its own user.
 */

import { receivedCase } from '../../case/sent-case.ts';
import { CaseProblems } from '../../case/text/problem.ts';
import { withExhaustDuration } from '../map/exhaust-duration.ts';
import type { Job } from '../work/jobs.ts';
import { meshProblem } from '../work/mesh-limit.ts';
import type { Parcel } from '../work/parcel.ts';

/** Bytes of a parcel at most; a case takes some ten thousand. */
export const MOST_PARCEL = 300_000;
const MOST_SPEEDS = 1000;

export type Received =
  | { readonly ok: true; readonly job: Job<'draft' | 'speed-group'> }
  | { readonly ok: false; readonly refusal: string };

const KEYS: Readonly<Record<keyof Parcel, (value: unknown) => boolean>> = {
  kind: (value) => value === 'draft' || value === 'speed-group',
  program: isText,
  draft: isText,
  document: (value) => typeof value === 'object' && value !== null,
  set: (value) =>
    Array.isArray(value) && value.length <= 200 && value.every((one) => typeof one === 'string'),
  runSpeeds: areSpeeds,
  speeds: areSpeeds,
  cell: (value) => typeof value === 'number' && value >= 1e-4 && value <= 0.05,
  durationDeg: (value) => value === null || (typeof value === 'number' && value > 0 && value < 360),
};

/** A parcel as work, or why it is refused, in words. */
export function received(data: unknown, program: string): Received {
  const refused = (refusal: string): Received => ({ ok: false, refusal });
  const size = JSON.stringify(data ?? null).length;
  if (size > MOST_PARCEL) return refused(`it has ${size} bytes; at most ${MOST_PARCEL} are taken`);
  if (typeof data !== 'object' || data === null || Array.isArray(data))
    return refused('it is no group of keys');
  const foreign = Object.keys(data).filter((key) => !Object.hasOwn(KEYS, key));
  if (foreign.length > 0) return refused(`it has keys that are not known: ${foreign.slice(0, 5).join(', ')}`);
  for (const [key, fits] of Object.entries(KEYS))
    if (!fits((data as Record<string, unknown>)[key])) return refused(`its ${key} is not what it should be`);
  const parcel = data as Parcel;
  if (parcel.program !== program) return refused(`it is of ${parcel.program}, and this is ${program}`);
  try {
    return { ok: true, job: jobOf(parcel) };
  } catch (error) {
    if (error instanceof CaseProblems)
      return refused(
        error.problems
          .slice(0, 3)
          .map(({ message }) => message)
          .join('; '),
      );
    if (error instanceof RangeError) return refused(error.message);
    throw error;
  }
}

/** @throws CaseProblems @throws RangeError */
function jobOf(parcel: Parcel): Job<'draft' | 'speed-group'> {
  const { kind, draft, runSpeeds, speeds, cell, durationDeg } = parcel;
  const made = receivedCase(parcel);
  const run = {
    ...made,
    run: { ...made.run, speeds: runSpeeds, cell },
    inputs: [],
    assumed: [],
    warnings: [],
  };
  const mesh = meshProblem(run);
  if (mesh !== null) throw new RangeError(mesh);
  const subject = durationDeg === null ? run : withExhaustDuration(run, durationDeg);
  return kind === 'draft'
    ? { kind, input: { draft, subject } }
    : { kind, input: { subject, speeds, brief: true } };
}

function isText(value: unknown): boolean {
  return typeof value === 'string' && value.length > 0 && value.length <= 200;
}

function areSpeeds(value: unknown): boolean {
  return (
    Array.isArray(value) &&
    value.length >= 1 &&
    value.length <= MOST_SPEEDS &&
    value.every((speed) => typeof speed === 'number' && speed >= 100 && speed <= 50_000)
  );
}
