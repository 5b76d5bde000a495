/**
 * Holes and steps of the torque curve and why they are there. A hole is a lowest point with a crest on either side that stands
 * higher by a share of the best torque; it is held against the lesser of the two, which is a bump, or against the other where
 * that alone tells why. A step is a fall or rise by a larger share from one computed speed to the next, outside such a hole. A jump
 * is a step between speeds close together at which the wave stands all but still: too steep for what is seen of the wave.
 *
 * Torque goes with what stays in the cylinder, the product of what is delivered and of the share that is trapped. The one that
 * falls more from crest to hole leads to the reason: a front that ends the suction there and not at the crest, a port that stands
 * higher while the transfers are open, a crankcase that sends up less, a wave that comes earlier or later.
 */

import { middleAfterTransfers } from '../landing.ts';
import type { Reading, SweepRow } from '../row.ts';
import { type Spoiling, spoilingOf } from './spoiling.ts';

export type HoleReason =
  | { readonly kind: 'not settled' }
  | { readonly kind: 'spoiled'; readonly by: Spoiling }
  /** Pressure at the port while the transfers are open, in the hole and at the crest [bar]. */
  | { readonly kind: 'port'; readonly bar: number; readonly against: number }
  /** Delivery ratio [-]. */
  | { readonly kind: 'intake'; readonly delivery: number; readonly against: number }
  /** Middle of the wave after transfer closing [deg]. */
  | { readonly kind: 'wave'; readonly way: 'earlier' | 'later'; readonly by: number }
  /** Trapping efficiency [-]. */
  | { readonly kind: 'trapping'; readonly trapping: number; readonly against: number }
  /** Fresh share of the charge [-]. */
  | { readonly kind: 'residual'; readonly fresh: number; readonly against: number }
  | { readonly kind: 'unknown' };

export interface Hole {
  readonly kind: 'hole' | 'step' | 'jump';
  readonly rpm: number;
  /** The crest, or the other side of the step or jump, that it is held against, and how far below that it is [rpm, -]. */
  readonly crestRpm: number;
  readonly depth: number;
  readonly reason: HoleReason;
}

/** Least depth of a hole, as a share of the best torque [-]. Judgement, no source. */
const LEAST_DEPTH = 0.02;
/** Least step between neighbouring speeds, as a share of the best torque [-]. Judgement, no source. */
const STEP = 0.12;
/** Speeds so close [rpm], torques so far apart over the greater [-], the wave's middle so still [deg]. Judgement, no source. */
const JUMP = { rpm: 50, torque: 0.05, middleDeg: 5 } as const;
/** Differences from which on they count as a reason [bar, deg]. Judgement, no source. */
const PORT = 0.03;
const MIDDLE = 3;
/** A front this much higher than at the crest is what makes the difference [-]. */
const STRONGER = 1.3;

/** Holes, steps and jumps, ascending. */
export function holesOf(rows: readonly SweepRow[]): readonly Hole[] {
  const known = rows.filter((row) => row.torque_nm !== null);
  const best = Math.max(...known.map(torque));
  const found = dips(known, LEAST_DEPTH * best).map(({ low, crests: [lesser, greater] }) =>
    // A front that both the hole and its bump suffer from is told against the crest that does not.
    told('hole', low, !isSpoiled(low, lesser) && isSpoiled(low, greater) ? greater : lesser),
  );
  const isTold = (row: SweepRow): boolean => found.some(({ rpm }) => rpm === row.speed_rpm);
  known.forEach((row, k) => {
    const before = known[k - 1];
    if (before === undefined) return;
    const [low, high] = torque(row) < torque(before) ? [row, before] : [before, row];
    if (isJump(low, high)) found.push(told('jump', low, high));
    else if (torque(high) - torque(low) >= STEP * best && !isTold(low)) found.push(told('step', low, high));
  });
  return found.sort((a, b) => a.rpm - b.rpm);
}

/** Neighbours whose torques differ more than the wave's place does. */
function isJump(low: SweepRow, high: SweepRow): boolean {
  const moved = apart(low.plugback_centroid_deg, high.plugback_centroid_deg);
  return (
    Math.abs(low.speed_rpm - high.speed_rpm) <= JUMP.rpm &&
    1 - torque(low) / torque(high) > JUMP.torque &&
    moved !== null &&
    moved < JUMP.middleDeg
  );
}

/** How far two angles lie apart [deg]; null: one is not known. */
const apart = (one: Reading, other: Reading): Reading =>
  one === null || other === null ? null : Math.abs(one - other);

const told = (kind: Hole['kind'], low: SweepRow, crest: SweepRow): Hole => ({
  kind,
  rpm: low.speed_rpm,
  crestRpm: crest.speed_rpm,
  depth: 1 - torque(low) / torque(crest),
  reason: reasonOf(low, crest),
});

/** A front spoils the suction there, and not as much at the crest. */
function isSpoiled(low: SweepRow, crest: SweepRow): boolean {
  const by = spoilingOf(low);
  return by !== null && by.rise > STRONGER * (spoilingOf(crest)?.rise ?? 0);
}

const torque = (row: SweepRow): number => row.torque_nm ?? Number.NaN;

interface Dip {
  readonly low: SweepRow;
  readonly crests: readonly [lesser: SweepRow, greater: SweepRow];
}

/** Lowest rows between crests that rise by at least so much on both sides. */
function dips(rows: readonly SweepRow[], least: number): readonly Dip[] {
  const found: Dip[] = [];
  let crest = rows[0];
  let low: SweepRow | null = null;
  for (const row of rows) {
    if (crest === undefined) break;
    if (low === null) {
      if (torque(row) > torque(crest)) crest = row;
      else if (torque(crest) - torque(row) >= least) low = row;
      continue;
    }
    if (torque(row) < torque(low)) low = row;
    if (torque(row) - torque(low) < least) continue;
    // Upwards again: the crest beyond is known when it falls, so go on up to it.
    const beyond = crestFrom(rows, row);
    const isLess = torque(beyond) < torque(crest);
    found.push({ low, crests: isLess ? [beyond, crest] : [crest, beyond] });
    crest = row;
    low = null;
  }
  return found;
}

/** The top of the slope that begins at a row. */
function crestFrom(rows: readonly SweepRow[], from: SweepRow): SweepRow {
  let top = from;
  for (const row of rows.slice(rows.indexOf(from))) {
    if (torque(row) < torque(top)) break;
    top = row;
  }
  return top;
}

function reasonOf(hole: SweepRow, crest: SweepRow): HoleReason {
  if (!hole.settled) return { kind: 'not settled' };
  const by = spoilingOf(hole);
  if (by !== null && isSpoiled(hole, crest)) return { kind: 'spoiled', by };
  const [delivery, trapping] = [
    change(hole.delivery_ratio, crest.delivery_ratio),
    change(hole.trapping_efficiency, crest.trapping_efficiency),
  ];
  const fresh = change(hole.scavenging_efficiency, crest.scavenging_efficiency);
  if (Math.min(delivery, trapping) >= 0)
    return fresh < 0
      ? {
          kind: 'residual',
          fresh: hole.scavenging_efficiency ?? 0,
          against: crest.scavenging_efficiency ?? 0,
        }
      : { kind: 'unknown' };
  return delivery < trapping ? lessDelivered(hole, crest) : lessTrapped(hole, crest);
}

/** Logarithm of a ratio, 0 where one is not known. */
const change = (is: Reading, was: Reading): number =>
  is === null || was === null || !(is > 0 && was > 0) ? 0 : Math.log(is / was);

function lessDelivered(hole: SweepRow, crest: SweepRow): HoleReason {
  const [bar, against] = [hole.port_mean_during_transfer_bar, crest.port_mean_during_transfer_bar];
  return bar !== null && against !== null && bar - against >= PORT
    ? { kind: 'port', bar, against }
    : { kind: 'intake', delivery: hole.delivery_ratio ?? 0, against: crest.delivery_ratio ?? 0 };
}

function lessTrapped(hole: SweepRow, crest: SweepRow): HoleReason {
  const [is, was] = [middleAfterTransfers(hole), middleAfterTransfers(crest)];
  const by = is === null || was === null ? 0 : is - was;
  return Math.abs(by) >= MIDDLE
    ? { kind: 'wave', way: by < 0 ? 'earlier' : 'later', by: Math.abs(by) }
    : { kind: 'trapping', trapping: hole.trapping_efficiency ?? 0, against: crest.trapping_efficiency ?? 0 };
}
