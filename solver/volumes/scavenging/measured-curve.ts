/**
 * A measured or published curve of scavenging efficiency SE over scavenge ratio SR, straight between its points. What entered
 * stays unmixed in zone 1, and the stream that leaves draws on it so that the curve is followed: at constant density
 *   share drawn from zone 1 = 1 - dSE/dSR,   taken where the curve has the share of the volume that zone 1 now fills.
 * Beyond the last point the rest is driven out as by perfect mixing: dSE/dSR falls to nil in proportion to 1 - SE.
 * The curve holds whatever crosses. Derived here.
 */

import { type ScavengingLaw, SWEEP, type Sweep } from './law.ts';

/** A point of the curve [-]. */
export interface CurvePoint {
  readonly scavengeRatio: number;
  readonly efficiency: number;
}

export class MeasuredCurve implements ScavengingLaw {
  /** SE at the end of each stretch, and dSE/dSR along it. */
  private readonly reached: Float64Array;
  private readonly slope: Float64Array;

  /**
   * The points in order, without the origin.
   * @throws RangeError if there is none, SR or SE do not grow, SE reaches 1, or more is kept than came in.
   */
  constructor(points: readonly CurvePoint[]) {
    if (points.length === 0) throw new RangeError('a scavenging curve needs at least one point');
    this.reached = Float64Array.from(points, (point) => point.efficiency);
    this.slope = Float64Array.from(points, (point, k) => {
      const before = points[k - 1] ?? { scavengeRatio: 0, efficiency: 0 };
      const came = point.scavengeRatio - before.scavengeRatio;
      const kept = point.efficiency - before.efficiency;
      const name = `point ${k + 1} of the scavenging curve`;
      if (!(came > 0) || !(kept > 0)) throw new RangeError(`${name}: ratio and efficiency must grow`);
      if (!(point.efficiency < 1)) throw new RangeError(`${name}: the efficiency must stay below 1`);
      if (kept > came * (1 + 1e-9)) throw new RangeError(`${name}: more stays in the volume than came in`);
      return kept / came;
    });
  }

  fillEntering(sweep: Sweep): void {
    sweep[SWEEP.toSecond] = 1;
  }

  fillLeaving(sweep: Sweep): void {
    const filled = sweep[SWEEP.filled];
    const leaving = sweep[SWEEP.leaving];
    sweep[SWEEP.fromSecond] = 0;
    if (!(leaving > 0)) return;
    const drawn = 1 - this.slopeAt(filled);
    // Where more leaves than enters, zone 1 gives no more than it holds: as if mixed, beside what just came in.
    const most = filled + sweep[SWEEP.entering] / leaving;
    sweep[SWEEP.fromSecond] = Math.max(0, Math.min(1, drawn, most));
  }

  private slopeAt(filled: number): number {
    const { reached, slope } = this;
    const last = reached.length - 1;
    for (let k = 0; k <= last; k++) if (filled < reached[k]) return slope[k];
    return (slope[last] * (1 - filled)) / (1 - reached[last]);
  }
}
