/**
 * What is sent to a lender: plain data. A case as its document with everything inline, overrides, and settings; nothing
 * in it is run as code and no file is named. On arrival it is read by the same schema as a file, with the same limits, so
 * that a lender computes only what it would take from its own user.
 */

import { receivedCase } from '../../case/sent-case.ts';
import { CaseProblems } from '../../case/text/problem.ts';
import { withExhaustDuration } from '../map/exhaust-duration.ts';
import type { Job } from '../work/jobs.ts';
import { stateOf } from '../work/kept-state.ts';
import { meshProblem } from '../work/mesh-limit.ts';
import type { Parcel } from '../work/parcel.ts';

/** Bytes of a parcel without fields at most; a case takes some ten thousand. */
export const MOST_PARCEL = 300_000;
/** Bytes of the fields of all its speeds at most; those of one take some ten thousand. */
const MOST_FIELDS = 4_000_000;
const MOST_SPEEDS = 1000;

export type Received =
  | { readonly ok: true; readonly job: Job<Parcel['kind']> }
  | { readonly ok: false; readonly refusal: string };

const KEYS: Readonly<Record<keyof Parcel, (value: unknown) => boolean>> = {
  kind: (value) => value === 'draft' || value === 'speed-group' || value === 'observed',
  program: isText,
  draft: isText,
  document: (value) => typeof value === 'object' && value !== null,
  set: (value) =>
    Array.isArray(value) && value.length <= 200 && value.every((one) => typeof one === 'string'),
  runSpeeds: areSpeeds,
  speeds: areSpeeds,
  cell: (value) => typeof value === 'number' && value >= 1e-4 && value <= 0.05,
  durationDeg: (value) => value === null || (typeof value === 'number' && value > 0 && value < 360),
  watch: (value) => value === undefined || isWatch(value),
};

/** A parcel as work, or why it is refused, in words. */
export function received(data: unknown, program: string): Received {
  const refused = (refusal: string): Received => ({ ok: false, refusal });
  if (typeof data !== 'object' || data === null || Array.isArray(data))
    return refused('it is no group of keys');
  const { watch = null, ...rest } = data as Partial<Parcel>;
  for (const [part, most] of [[rest, MOST_PARCEL] as const, [watch, MOST_FIELDS] as const]) {
    const size = JSON.stringify(part).length;
    if (size > most) return refused(`it has ${size} bytes; at most ${most} are taken`);
  }
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
function jobOf(parcel: Parcel): Job<Parcel['kind']> {
  const { kind, draft, runSpeeds, speeds, cell, durationDeg, watch } = parcel;
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
  if (kind === 'draft') return { kind, input: { draft, subject } };
  if (kind === 'speed-group') return { kind, input: { subject, speeds, brief: true } };
  if (watch === undefined) throw new RangeError('it says nothing of what is to be observed');
  for (const start of watch.starts) if (start !== null) stateOf(start);
  return { kind, input: { subject, ...watch } };
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

/** Places, speeds and fields of a piece that is observed; the fields themselves are read with the case. */
function isWatch(value: unknown): boolean {
  if (typeof value !== 'object' || value === null) return false;
  const { speeds, starts, mostCycles, ...foreign } = value as Record<string, unknown>;
  return (
    Object.keys(foreign).length === 0 &&
    Array.isArray(speeds) &&
    areSpeeds(speeds.map((one) => one?.rpm)) &&
    speeds.every(isWatchedSpeed) &&
    Array.isArray(starts) &&
    starts.length === speeds.length &&
    starts.every((start) => start === null || typeof start === 'string') &&
    typeof mostCycles === 'number' &&
    mostCycles >= 1 &&
    mostCycles <= 1000
  );
}

function isWatchedSpeed(value: Record<string, unknown>): boolean {
  const { rpm: _, pressures, gas, walls, ...foreign } = value;
  const isDistance = (at: unknown): boolean => typeof at === 'number' && Math.abs(at) <= 100;
  const isPlace = (at: unknown): boolean => at === 'port' || at === 'crankcase' || at === 'cylinder';
  const areFew = (places: unknown, fits: (at: unknown) => boolean): boolean =>
    Array.isArray(places) && places.length <= 100 && places.every(fits);
  return (
    Object.keys(foreign).length === 0 &&
    areFew(pressures, (at) => isPlace(at) || isDistance(at)) &&
    areFew(gas, isDistance) &&
    areFew(walls, isDistance)
  );
}
