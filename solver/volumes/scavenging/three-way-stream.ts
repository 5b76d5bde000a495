/**
 * Of the sweeping stream a share sigma crosses to the outlet, of the rest a share d displaces without mixing and 1-d mixes with
 * what is there. With s = (1-sigma) SR this gives, at constant density, SE = 1 - (1 - d s)^(1/d): perfect mixing for d -> 0,
 * perfect displacement for d = 1 (derived here).
 */

import { type ScavengingLaw, SWEEP, type Sweep } from './law.ts';

/** Shares of a sweeping stream [-]. */
export interface StreamShares {
  /** d, of what does not cross. */
  readonly displacement: number;
  /** sigma. */
  readonly shortCircuit: number;
}

export class ThreeWayStream implements ScavengingLaw {
  /** Own fields, for a number read from objects of two shapes would be boxed. */
  private readonly displacement: number;
  private readonly shortCircuit: number;

  /** @throws RangeError if a share lies outside 0 to 1. */
  constructor({ displacement, shortCircuit }: StreamShares) {
    for (const share of [displacement, shortCircuit])
      if (!(share >= 0 && share <= 1))
        throw new RangeError(`a share of a stream lies in 0 to 1, not ${share}`);
    this.displacement = displacement;
    this.shortCircuit = shortCircuit;
  }

  fillEntering(sweep: Sweep): void {
    const { displacement, shortCircuit } = this;
    sweep[SWEEP.toSecond] = shortCircuit + (1 - shortCircuit) * displacement;
  }

  fillLeaving(sweep: Sweep): void {
    const crossing = this.shortCircuit * sweep[SWEEP.entering];
    const leaving = sweep[SWEEP.leaving];
    sweep[SWEEP.fromSecond] = crossing > 0 && leaving > 0 ? Math.min(1, crossing / leaving) : 0;
  }
}
