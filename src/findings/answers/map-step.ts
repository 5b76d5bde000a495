/** What the next step of exhaust duration costs and buys at one speed. */

import { middleLead } from '../landing.ts';
import type { DurationPoint, SweepRow } from '../row.ts';

/** What one row has more than another; null: one of them has no such reading. */
export interface Step {
  readonly fromDeg: number;
  readonly toDeg: number;
  /** How much higher the roof of the exhaust is cut [m]. */
  readonly roof: number;
  /** Exhaust closing less the middle of the plug-back. */
  readonly leadDeg: number | null;
  readonly torque: number | null;
  /** Whether the change of torque is more than cycles vary by. */
  readonly verdict: 'gains' | 'loses' | 'same' | 'unknown';
  /** Packed mass over the trapped mass [-]. */
  readonly packed: number | null;
  /** Cylinder pressure at transfer opening [bar]. */
  readonly openingBar: number | null;
  /** Null as well where it is less than can be told. */
  readonly echoGain: number | null;
}

/** Changes of torque below this share, and of the echo's gain, say nothing: cycles vary as much [-]. */
export const LEAST_TORQUE = 0.003;
export const LEAST_GAIN = 0.02;

export function stepBetween(
  from: DurationPoint,
  to: DurationPoint,
  roofTravel: (durationDeg: number) => number,
): Step {
  const change = (value: (row: SweepRow) => number | null): number | null => {
    const [was, is] = [value(from.row), value(to.row)];
    return was === null || is === null ? null : is - was;
  };
  const torque = change((r) => r.torque_nm);
  const gain = change((r) => r.echo_gain);
  return {
    fromDeg: from.durationDeg,
    toDeg: to.durationDeg,
    roof: roofTravel(from.durationDeg) - roofTravel(to.durationDeg),
    leadDeg: change(middleLead),
    torque,
    verdict: verdictOf(torque, from.row.torque_nm),
    packed: change((r) => r.packed_mass_ratio),
    openingBar: change((r) => r.transfer_opening_cylinder_bar),
    echoGain: gain === null || Math.abs(gain) < LEAST_GAIN ? null : gain,
  };
}

function verdictOf(change: number | null, from: number | null): Step['verdict'] {
  if (change === null || from === null) return 'unknown';
  if (Math.abs(change) < LEAST_TORQUE * from) return 'same';
  return change > 0 ? 'gains' : 'loses';
}
