/** What a change made of the answer: torque and power at a speed, and the speeds at which the pipe works. Data, not words. */

import type { SpeedSpan } from '../findings/band.ts';
import { curveOf, middleLeadAt, valueAt } from '../findings/curve.ts';
import type { SweepRow } from '../findings/row.ts';
import { workingBand } from '../findings/working-band.ts';

export interface Difference {
  readonly rpm: number;
  /** Gains over the base [Nm, kW, deg]; null: not known in one of the two. */
  readonly torque: number | null;
  readonly power: number | null;
  readonly lead: number | null;
  /** Bands before and now [rpm]; null: there is none. */
  readonly before: SpeedSpan | null;
  readonly now: SpeedSpan | null;
}

export function difference(base: readonly SweepRow[], rows: readonly SweepRow[], rpm: number): Difference {
  const gain = (name: 'torque_nm' | 'power_kw'): number | null =>
    less(valueAt(curveOf(rows, name), rpm), valueAt(curveOf(base, name), rpm));
  return {
    rpm,
    torque: gain('torque_nm'),
    power: gain('power_kw'),
    lead: less(middleLeadAt(rows, rpm), middleLeadAt(base, rpm)),
    before: workingBand(base).works,
    now: workingBand(rows).works,
  };
}

const less = (a: number | null, b: number | null): number | null => (a === null || b === null ? null : a - b);
