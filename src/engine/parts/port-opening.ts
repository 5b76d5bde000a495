/** A port in the cylinder wall: table of its area times a discharge coefficient that grows from crack to full opening. */

import { CLOCK, type Clock, type Opening } from '../../../solver/index.ts';
import type { Discharge } from '../../model/port-window.ts';
import { type PortTable, turnIntoArea } from '../../timing/schedule.ts';
import type { CrankPhase } from './crank-phase.ts';

export class PortOpening implements Opening {
  areaOut = 0;
  areaIn = 0;
  private readonly table: PortTable;
  /** Crank angle, then area: in an array, so that neither is boxed. */
  private readonly turned = new Float64Array(1);
  private readonly degPerSecond: number;
  private readonly phaseDeg: number;
  private readonly crackOut: number;
  private readonly gainOut: number;
  private readonly crackIn: number;
  private readonly gainIn: number;

  /** `out` and `in` of the discharge are the cylinder's; `fromCylinder` false swaps them for a link that starts elsewhere. */
  constructor(table: PortTable, discharge: Discharge, { rpm, phaseDeg }: CrankPhase, fromCylinder: boolean) {
    this.table = table;
    this.degPerSecond = 6 * rpm;
    this.phaseDeg = phaseDeg;
    const { outCrack, outFull, inCrack, inFull } = discharge;
    this.crackOut = fromCylinder ? outCrack : inCrack;
    this.gainOut = ((fromCylinder ? outFull : inFull) - this.crackOut) / table.full;
    this.crackIn = fromCylinder ? inCrack : outCrack;
    this.gainIn = ((fromCylinder ? inFull : outFull) - this.crackIn) / table.full;
  }

  set(clock: Clock): void {
    const { turned } = this;
    turned[0] = this.degPerSecond * clock[CLOCK.stage]! - this.phaseDeg;
    turnIntoArea(this.table, turned);
    const area = turned[0] as number;
    this.areaOut = area * (this.crackOut + this.gainOut * area);
    this.areaIn = area * (this.crackIn + this.gainIn * area);
  }
}
