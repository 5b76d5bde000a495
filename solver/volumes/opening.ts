/**
 * The effective area of an opening over time, the discharge coefficient included; it may differ with the direction of
 * flow and, for a valve that moves by itself, follow its own motion.
 */

import type { Clock } from '../march/clock.ts';

export interface Opening {
  /** Sets the two areas for the time of the clock's stage. */
  set(clock: Clock): void;
  /** Effective area for flow out of the volume (into the duct or the other volume) [m2]. */
  areaOut: number;
  /** Effective area for flow into the volume [m2]. */
  areaIn: number;
  /**
   * A valve with a motion of its own moves on over the clock's step, once accepted, under the pressure difference across it,
   * the one slot of an array [Pa]: a number handed over would be boxed.
   */
  advance?(clock: Clock, difference: Float64Array): void;
}

/** An opening of constant effective area. */
export function fixedOpening(area: number): Opening {
  return { set: () => undefined, areaOut: area, areaIn: area };
}
