/** What an aim has to say first: whether its last pipe gains at the target, where its wave lands, and which dimensions tell. */

import { curveOf, middleLeadAt, rowFor, valueAt } from '../curve.ts';
import { type Landing, landing } from '../landing.ts';
import type { SweepRow } from '../row.ts';
import { WORTH_GAIN } from './advice.ts';

export interface AtTarget {
  readonly torque: number | null;
  /** Exhaust closing less the middle of the plug-back [deg]. */
  readonly middle: number | null;
  readonly landing: Landing;
}

/** A quantity that the aim moved, before and after, in its unit. */
export interface MovedQuantity {
  readonly name: string;
  readonly unit: string;
  readonly before: number;
  readonly after: number;
}

export interface AimAnswer {
  readonly before: AtTarget;
  readonly after: AtTarget;
  /** unknown: the mean could not be read of both; none: no more than can be told. */
  readonly verdict: 'gains' | 'none' | 'unknown';
  /** Mean torque about the target more than before [Nm]. */
  readonly gain: number | null;
  /** What changed most, the most first. */
  readonly told: readonly MovedQuantity[];
  /** The search began with another pipe than the given one, and the length of its header [m]. */
  readonly origin: { readonly header: number | null } | null;
}

export interface AimQuestion {
  readonly targetSpeed: number;
  readonly before: { readonly rows: readonly SweepRow[] };
  readonly after: { readonly rows: readonly SweepRow[] };
  /** Mean torque about the target [Nm]. */
  readonly scoreBefore: number | null;
  readonly scoreAfter: number | null;
  readonly changes: readonly MovedQuantity[];
  readonly startedFrom: 'handbook' | 'draft';
  /** The handbook's pipe that the search began with; null: it began with the one before. */
  readonly start: {
    readonly outline: readonly { readonly role: string; readonly start: number; readonly end: number }[];
  } | null;
}

/** Changes that are told; the others stand in the table. */
const TOLD = 3;
/** A change of a quantity below this is none [mm]. */
const LEAST_CHANGE = 0.05;

export function aimAnswer(asked: AimQuestion): AimAnswer {
  const [before, after] = [at(asked.before, asked.targetSpeed), at(asked.after, asked.targetSpeed)];
  const { scoreBefore: was, scoreAfter: is } = asked;
  const gain = was === null || is === null ? null : is - was;
  return {
    before,
    after,
    gain,
    verdict: gain === null ? 'unknown' : gain >= WORTH_GAIN * (was ?? 0) ? 'gains' : 'none',
    told: [...asked.changes]
      .filter((one) => Math.abs(one.after - one.before) >= LEAST_CHANGE)
      .sort((a, b) => Math.abs(b.after - b.before) - Math.abs(a.after - a.before))
      .slice(0, TOLD),
    origin: originOf(asked),
  };
}

function at({ rows }: AimQuestion['before'], targetSpeed: number): AtTarget {
  const row = rowFor(rows, targetSpeed);
  return {
    torque: valueAt(curveOf(rows, 'torque_nm'), targetSpeed),
    middle: middleLeadAt(rows, targetSpeed),
    landing: row === null ? 'none' : landing(row),
  };
}

function originOf({ startedFrom, start }: AimQuestion): AimAnswer['origin'] {
  if (startedFrom !== 'handbook' || start === null) return null;
  const header = start.outline.find(({ role }) => role === 'header');
  return { header: header === undefined ? null : header.end - header.start };
}
