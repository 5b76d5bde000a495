/**
 * A volume on one side of the piston as a function of time, which is all the solver sees of the crank.
 *
 * Heat to its wall by Annand 1963, Nu = a Re^0.7 with bore and mean piston speed; a from memory. His term of radiation, c (T^4
 * - Tw^4) with c = 4.3e-9 W/(m2 K4), is left out: beside 2000 K gas at 30 bar it is some 3 % of the convection (derived here).
 */

import {
  type Asked,
  conductivity,
  DRIVE,
  power,
  type Release,
  type VolumeDrive,
  viscosity,
} from '../../../solver/index.ts';
import { type PistonSide, turnIntoVolume } from '../../timing/volume.ts';
import type { CrankPhase } from './crank-phase.ts';

/** Heat to a wall: its temperature [K], Annand's coefficient a [-], mean piston speed [m/s] and bore [m]. */
export interface WallHeat {
  readonly wallTemperature: number;
  readonly a: number;
  readonly speed: number;
  readonly bore: number;
}

export abstract class PistonDrive implements VolumeDrive {
  abstract readonly release: Release | null;
  private readonly side: PistonSide;
  protected readonly degPerSecond: number;
  protected readonly phaseDeg: number;
  private readonly heat: WallHeat | null;

  constructor(side: PistonSide, { rpm, phaseDeg }: CrankPhase, heat: WallHeat | null) {
    this.side = side;
    this.degPerSecond = 6 * rpm;
    this.phaseDeg = phaseDeg;
    this.heat = heat;
  }

  /** Multiplies what stands where the heat will by the wall that the gas touches when it fills the volume [m2]. */
  protected abstract timesWall(asked: Asked): void;

  fillVolume(asked: Asked): void {
    asked[DRIVE.volume] = this.degPerSecond * asked[DRIVE.time]! - this.phaseDeg;
    turnIntoVolume(this.side, asked, DRIVE.volume);
  }

  fillWallHeat(asked: Asked): void {
    const { heat } = this;
    if (heat === null) {
      asked[DRIVE.wallHeat] = 0;
      return;
    }
    this.fillCoefficient(asked, heat);
    this.timesWall(asked);
    const hA = asked[DRIVE.wallHeat]!;
    asked[DRIVE.wallHeat] = hA * (heat.wallTemperature - asked[DRIVE.temperature]!);
  }

  /** Fills the heat transfer coefficient, Annand's, where the heat will stand [W/(m2 K)]. */
  protected fillCoefficient(asked: Asked, { a, speed, bore }: WallHeat): void {
    const temperature = asked[DRIVE.temperature]!;
    const reynolds = (asked[DRIVE.density]! * speed * bore) / viscosity(temperature);
    asked[DRIVE.wallHeat] = (a * conductivity(temperature) * power(reynolds, 0.7)) / bore;
  }
}
