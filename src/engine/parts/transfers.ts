/**
 * The transfers: passages from a crankcase to a cylinder. Lumped, with the inertia of their gas columns where the case asks for it,
 * what is blown back into them is in the crankcase at once. As ducts of two gases they keep it, so that burnt gas that
 * came in last returns first. Their mouths in the crankcase are taken as rounded, without loss on the way in: the discharge of
 * the windows includes the loss of the passages. On the way back the stream ends as a jet there.
 */

import {
  CLOCK,
  type Clock,
  FLOW,
  type Flow,
  fixedOpening,
  type GasModel,
  type Link,
  type MarchingDuct,
  newDuct,
  newFlow,
} from '../../../solver/index.ts';
import type { Case } from '../../model/case.ts';
import { meshPassages } from '../../pipe/transfer-passages.ts';
import type { PortTable } from '../../timing/schedule.ts';
import { type Crankcase, compressedCharge } from './crankcase.ts';
import type { Cylinder } from './cylinder.ts';
import { type ColdStart, EnginePart } from './part.ts';
import { PortOpening } from './port-opening.ts';
import { fillDuct } from './saved.ts';

/** Roughness of a passage's wall [m]. Value from memory, for cast and dressed surfaces. */
const ROUGHNESS = 1e-5;

export interface TransfersBook {
  /** Fresh mass through them, net [kg]. */
  transferred: number;
  /** All mass that was blown back through them, gross [kg]. */
  transferBack: number;
  /** All mass, and burnt mass, that entered the cylinder through them, gross [kg]. */
  transferIn: number;
  transferInBurnt: number;
  /** Pressures of cylinder and crankcase as they open [Pa]. */
  openingCylinder: number;
  openingCrankcase: number;
}

/** What transfers lie between, and cells of about a length [m]. */
export interface TransferPlace {
  readonly from: Crankcase;
  readonly to: Cylinder;
  readonly gas: GasModel;
  readonly cell: number;
}

export class Transfers extends EnginePart {
  override readonly ducts: readonly MarchingDuct[];
  override readonly links: readonly Link[];
  /** The stream at the windows, and the sign that makes it count into the cylinder. */
  readonly stream: Flow = newFlow();
  readonly inward: 1 | -1;
  sums = newSums();
  /** Flow of a lumped passage's column at the start of the step, and its trial at the end [kg/s]. */
  private readonly column = new Float64Array(2);

  constructor({ engine, run }: Case, table: PortTable, { from, to, gas, cell }: TransferPlace) {
    super();
    const { passage, discharge, windows } = engine.transfers;
    if (passage.as === 'duct') {
      const count = windows.reduce((sum, window) => sum + window.count, 0);
      const losses = { friction: run.friction, heat: 'none', roughness: ROUGHNESS } as const;
      const geometry = meshPassages(passage, count, cell);
      const duct = newDuct(run.scheme, 'transfers', gas, geometry, losses, true, run.kernel);
      this.ducts = [duct];
      this.inward = -1;
      this.links = ductLinks(duct, from, to, new PortOpening(table, discharge, to.phase, true), this.stream);
    } else {
      this.ducts = [];
      this.inward = 1;
      this.links = [
        {
          kind: 'passage',
          from: from.volume,
          to: to.volume,
          toRole: 'sweeping',
          opening: new PortOpening(table, discharge, to.phase, false),
          inertance: passage.inertia ? passage.length / passage.area : 0,
          column: this.column,
          flow: this.stream,
        },
      ];
    }
    to.watch((begins) => {
      if (begins !== 'transfer') return;
      this.sums.openingCylinder = to.volume.pressure;
      this.sums.openingCrankcase = from.volume.pressure;
    });
  }

  startCold(start: ColdStart): void {
    this.column.fill(0);
    const { pressure, temperature } = compressedCharge(start);
    for (const duct of this.ducts) fillDuct(duct, pressure, temperature, 0);
  }

  protected override motion(): readonly number[] {
    return this.ducts.length > 0 ? [] : [this.column[0]!];
  }

  protected override setMotion([column]: readonly number[]): void {
    this.column[0] = column as number;
  }

  override openBook(): void {
    this.sums = newSums();
  }

  override book(clock: Clock): void {
    const { sums, stream, inward } = this;
    const dt = clock[CLOCK.dt]!;
    const through = inward * stream[FLOW.mass]!;
    const burnt = inward * stream[FLOW.burnt]!;
    sums.transferred += (through - burnt) * dt;
    if (through < 0) sums.transferBack -= through * dt;
    else {
      sums.transferIn += through * dt;
      sums.transferInBurnt += burnt * dt;
    }
  }
}

function ductLinks(
  duct: MarchingDuct,
  from: Crankcase,
  to: Cylinder,
  opening: PortOpening,
  stream: Flow,
): readonly Link[] {
  const mouth = fixedOpening(duct.left.area);
  return [
    { kind: 'port', end: duct.left, volume: from.volume, role: 'plain', opening: mouth, flow: newFlow() },
    { kind: 'port', end: duct.right, volume: to.volume, role: 'sweeping', opening, flow: stream },
  ];
}

function newSums(): TransfersBook {
  return {
    transferred: 0,
    transferBack: 0,
    transferIn: 0,
    transferInBurnt: 0,
    openingCylinder: 0,
    openingCrankcase: 0,
  };
}
