/** Burning in a cylinder: Wiebe's function of crank angle, each charge burning completely; cumulative over all turns. */

import { type Asked, DRIVE, type Release } from '../../../solver/index.ts';
import type { Engine } from '../../model/engine.ts';
import { burntShare } from '../../timing/wiebe.ts';
import type { CrankPhase } from './crank-phase.ts';

/** Cumulative burnt share; grows by one a turn. */
export class WiebeRelease implements Release {
  /** Set at each exhaust closing [kg]. */
  freshMass = 0;
  readonly heatPerMass: number;
  private readonly combustion: Engine['combustion'];
  private readonly rpm: number;
  private readonly phaseDeg: number;
  /** Burnt share at the end of the burn [-]. */
  private readonly whole: number;

  constructor(combustion: Engine['combustion'], { rpm, phaseDeg }: CrankPhase, heatPerMass: number) {
    const { wiebeEfficiency, wiebeExponent } = combustion;
    this.combustion = combustion;
    this.rpm = rpm;
    this.phaseDeg = phaseDeg;
    this.heatPerMass = heatPerMass;
    this.whole = burntShare(1, wiebeEfficiency, wiebeExponent);
  }

  fillBurntShare(asked: Asked): void {
    const { startDeg, durationDeg, wiebeEfficiency, wiebeExponent } = this.combustion;
    const since = (6 * this.rpm * (asked[DRIVE.time] as number) - this.phaseDeg - startDeg) / 360;
    const turn = Math.floor(since);
    const z = ((since - turn) * 360) / durationDeg;
    asked[DRIVE.burntShare] = turn + burntShare(z, wiebeEfficiency, wiebeExponent) / this.whole;
  }
}
