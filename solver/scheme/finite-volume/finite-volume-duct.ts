/**
 * A duct marched by a finite-volume scheme of another family: MUSCL-Hancock with the HLLC flux, second order and conservative,
 * without characteristics in its interior. It shares with the conservative method of characteristics what is no scheme's
 * own (the cells' averages and their decoding, wall laws, ends) and none of the stages that move the gas.
 */

import type { Clock } from '../../march/clock.ts';
import { ConservativeDuct } from '../conservative/conservative-duct.ts';
import { hand } from '../conservative/step.ts';
import { take, update } from './balance.ts';
import { fluxes } from './hllc.ts';
import { predict } from './predict.ts';

export class FiniteVolumeDuct extends ConservativeDuct {
  /** Momentum flux of the faces, rho u^2 + p, and pressure of the cells at mid-step [Pa]. */
  private readonly impulse = new Float64Array(this.cells + 1);
  private readonly middle = new Float64Array(this.cells);

  override arrive(clock: Clock): void {
    predict(this, this.middle, clock);
    hand(this, this.left);
    hand(this, this.right);
  }

  override finish(clock: Clock): number {
    const { impulse, middle } = this;
    fluxes(this, impulse);
    take(this, this.left, 0, impulse);
    take(this, this.right, this.cells, impulse);
    update(this, impulse, middle, clock);
    return this.heatTaken;
  }
}
