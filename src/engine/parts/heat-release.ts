/**
 * Burning in a cylinder: Wiebe's function of crank angle, cumulative over all turns. Residual gas in the trapped charge slows the
 * burn and leaves part of the heat unreleased, as `timing/residual.ts` says, where the case asks for it.
 */

import { type Asked, DRIVE, type Release } from '../../../solver/index.ts';
import type { Engine } from '../../model/engine.ts';
import { burnStart } from '../../timing/ignition.ts';
import { completenessFactor, durationFactor } from '../../timing/residual.ts';
import { burntShare } from '../../timing/wiebe.ts';
import type { CrankPhase } from './crank-phase.ts';

/** Cumulative burnt share; grows by one a turn. */
export class WiebeRelease implements Release {
  /** Set at each exhaust closing [kg]. */
  freshMass = 0;
  /** Heat per fresh mass of the present charge [J/kg]. */
  heatPerMass: number;
  /** Of a well scavenged charge [J/kg]. */
  private readonly fullHeat: number;
  private readonly combustion: Engine['combustion'];
  private readonly rpm: number;
  private readonly phaseDeg: number;
  private readonly startDeg: number;
  /** Duration of the present charge's burn [deg]. */
  private durationDeg: number;
  /** Burnt share at the end of the burn [-]. */
  private readonly whole: number;

  /** At the longest a burn lasts until the exhaust opens [deg]; what would burn later is taken to burn by then. */
  private readonly longestDeg: number;

  /** `opensDeg` is the exhaust's opening [deg], the heat that of a well scavenged charge [J/kg]. */
  constructor(
    combustion: Engine['combustion'],
    { rpm, phaseDeg }: CrankPhase,
    heatPerMass: number,
    opensDeg: number,
  ) {
    const { wiebeEfficiency, wiebeExponent } = combustion;
    this.combustion = combustion;
    this.rpm = rpm;
    this.phaseDeg = phaseDeg;
    this.startDeg = burnStart(combustion, rpm);
    this.longestDeg = opensDeg - this.startDeg;
    this.durationDeg = combustion.durationDeg;
    this.heatPerMass = heatPerMass;
    this.fullHeat = heatPerMass;
    this.whole = burntShare(1, wiebeEfficiency, wiebeExponent);
  }

  /** A charge is trapped: its mass and the fresh part of it [kg]. */
  charge(mass: number, fresh: number): void {
    const share = mass > 0 ? fresh / mass : 0;
    this.freshMass = fresh;
    const { durationDeg, residualAtDuration } = this.combustion;
    if (residualAtDuration === null) return;
    this.durationDeg = Math.min(this.longestDeg, durationDeg * durationFactor(1 - share, residualAtDuration));
    this.heatPerMass = this.fullHeat * completenessFactor(share);
  }

  fillBurntShare(asked: Asked): void {
    const { wiebeEfficiency, wiebeExponent } = this.combustion;
    const since = (6 * this.rpm * asked[DRIVE.time]! - this.phaseDeg - this.startDeg) / 360;
    const turn = Math.floor(since);
    const z = ((since - turn) * 360) / this.durationDeg;
    asked[DRIVE.burntShare] = turn + burntShare(z, wiebeEfficiency, wiebeExponent) / this.whole;
  }
}
