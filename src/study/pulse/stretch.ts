/** A run of sections that join without a jump of area: one duct of the network, and where it lies. */

import type { MarchingDuct, Taper } from '../../../solver/index.ts';
import type { PulseSection } from '../../model/pulse.ts';

/** Positions count from the left end of the first section. */
export interface Stretch {
  readonly duct: MarchingDuct;
  readonly sections: readonly PulseSection[];
  /** Position of the left end of the first of its sections [m]. */
  readonly start: number;
  readonly end: number;
  /** Position of the duct's own left end, before `start` by an end correction [m]. */
  readonly origin: number;
  readonly tapers: readonly Taper[];
}

/** The stretch that a position lies in; at a jump of area, the one to its right. */
export function stretchAt(stretches: readonly Stretch[], position: number): Stretch {
  return stretches.find((one) => position < one.end) ?? stretches.at(-1)!;
}
