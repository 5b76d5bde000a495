/**
 * Two zones with a mixing volume: the sweeping stream displaces until only a share y of the volume is left of what was there,
 * and from then on mixes with that. A share sigma crosses to the outlet, s = (1-sigma) SR. At constant density
 *   SE = s                              for s <= 1 - y,
 *   SE = 1 - y exp[(1 - y - s)/y]       beyond.
 * Source: Benson & Brandham 1969, A method for obtaining a quantitative assessment of the influence of charging efficiency on
 * two-stroke engine performance (value from memory); closed form derived here.
 */

import { type ScavengingLaw, SWEEP, type Sweep } from './law.ts';

/** What a two-zone law is made of [-]. */
export interface ZoneShares {
  /** y, the share of the volume that mixes; 0 displaces all, 1 mixes from the start. */
  readonly mixingVolume: number;
  /** sigma, the share of the sweeping stream that crosses. */
  readonly shortCircuit: number;
}

export class TwoZones implements ScavengingLaw {
  private readonly mixingVolume: number;
  private readonly shortCircuit: number;

  /** @throws RangeError if a share lies outside 0 to 1. */
  constructor({ mixingVolume, shortCircuit }: ZoneShares) {
    for (const share of [mixingVolume, shortCircuit])
      if (!(share >= 0 && share <= 1)) throw new RangeError(`a share lies in 0 to 1, not ${share}`);
    this.mixingVolume = mixingVolume;
    this.shortCircuit = shortCircuit;
  }

  fillEntering(sweep: Sweep): void {
    const { shortCircuit } = this;
    // The step in which zone 1 has filled its part is divided, so that the bend does not depend on the length of steps.
    const room = 1 - this.mixingVolume - sweep[SWEEP.filled];
    const wanted = (1 - shortCircuit) * sweep[SWEEP.turnover];
    sweep[SWEEP.toSecond] = shortCircuit;
    if (room >= wanted) sweep[SWEEP.toSecond] = 1;
    else if (room > 0) sweep[SWEEP.toSecond] += ((1 - shortCircuit) * room) / wanted;
  }

  fillLeaving(sweep: Sweep): void {
    const crossing = this.shortCircuit * sweep[SWEEP.entering];
    const leaving = sweep[SWEEP.leaving];
    sweep[SWEEP.fromSecond] = crossing > 0 && leaving > 0 ? Math.min(1, crossing / leaving) : 0;
  }
}
