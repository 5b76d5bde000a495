/** The transfers: passages from a crankcase to a cylinder, with the inertia of their gas columns where the case asks for it. */

import { CLOCK, type Clock, FLOW, newFlow, type PassageLink } from '../../../solver/index.ts';
import type { Engine } from '../../model/engine.ts';
import type { PortTable } from '../../timing/schedule.ts';
import type { Crankcase } from './crankcase.ts';
import type { Cylinder } from './cylinder.ts';
import { EnginePart } from './part.ts';
import { PortOpening } from './port-opening.ts';

export interface TransfersBook {
  /** Fresh mass through them, net [kg]. */
  transferred: number;
  /** All mass that was blown back through them, gross [kg]. */
  transferBack: number;
  /** Pressures of cylinder and crankcase as they open [Pa]. */
  openingCylinder: number;
  openingCrankcase: number;
}

export class Transfers extends EnginePart {
  readonly link: PassageLink;
  override readonly links: readonly PassageLink[];
  sums = newSums();

  constructor(transfers: Engine['transfers'], table: PortTable, from: Crankcase, to: Cylinder) {
    super();
    const { passage, discharge } = transfers;
    this.link = {
      kind: 'passage',
      from: from.volume,
      to: to.volume,
      toRole: 'sweeping',
      opening: new PortOpening(table, discharge, to.phase, false),
      inertance: passage.inertia ? passage.length / passage.area : 0,
      column: new Float64Array(2),
      flow: newFlow(),
    };
    this.links = [this.link];
    to.watch((begins) => {
      if (begins !== 'transfer') return;
      this.sums.openingCylinder = to.volume.pressure;
      this.sums.openingCrankcase = from.volume.pressure;
    });
  }

  startCold(): void {
    this.link.column.fill(0);
  }

  protected override motion(): readonly number[] {
    return [this.link.column[0]!];
  }

  protected override setMotion([column]: readonly number[]): void {
    this.link.column[0] = column as number;
  }

  override openBook(): void {
    this.sums = newSums();
  }

  override book(clock: Clock): void {
    const { sums, link } = this;
    const dt = clock[CLOCK.dt]!;
    const through = link.flow[FLOW.mass]!;
    sums.transferred += (through - link.flow[FLOW.burnt]!) * dt;
    if (through < 0) sums.transferBack -= through * dt;
  }
}

function newSums(): TransfersBook {
  return { transferred: 0, transferBack: 0, openingCylinder: 0, openingCrankcase: 0 };
}
