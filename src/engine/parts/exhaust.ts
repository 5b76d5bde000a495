/**
 * The exhaust: port - passage - header, diffuser, belly, baffle, stinger, with the temperature of their walls. What comes
 * behind the stinger is built on its `outlet`.
 */

import {
  ANSWER,
  CLOCK,
  type Clock,
  type DuctEnd,
  FLOW,
  type GasModel,
  type Link,
  type MarchingDuct,
  newDuct,
  newFlow,
  type PortLink,
  type WallLosses,
} from '../../../solver/index.ts';
import type { Case } from '../../model/case.ts';
import { type DuctRun, ductRuns, exhaustSections, meshRun } from '../../pipe/exhaust.ts';
import { endCorrectionOf } from '../../pipe/places.ts';
import { placedBends, shapeLosses } from '../../pipe/shape-losses.ts';
import type { PortTable } from '../../timing/schedule.ts';
import type { Cylinder } from './cylinder.ts';
import { stepsBetween } from './joints.ts';
import { type ColdStart, EnginePart, type PartState } from './part.ts';
import { PortOpening } from './port-opening.ts';
import { fieldAt } from './saved.ts';
import { wallTemperatureAt } from './wall.ts';

export interface ExhaustBook {
  /** Mass pushed back into the cylinder through the port after transfer closing [kg]. */
  packed: number;
  /** Sum of port pressure times time while the transfers are open [Pa s], and that time [s]. */
  portImpulse: number;
  transferTime: number;
}

/** A duct of the exhaust with the run of sections that it is made of. */
export interface ExhaustPiece {
  readonly run: DuctRun;
  readonly duct: MarchingDuct;
}

export class Exhaust extends EnginePart {
  /** The sections from the port's face on. */
  readonly sections: ReturnType<typeof exhaustSections>;
  readonly pieces: readonly ExhaustPiece[];
  override readonly ducts: readonly MarchingDuct[];
  override readonly links: readonly Link[];
  readonly port: PortLink;
  readonly outlet: DuctEnd;
  sums = newSums();
  private readonly cylinder: Cylinder;
  private readonly wallsMove: boolean;

  /** Cells are of about a length [m]. */
  constructor(subject: Case, table: PortTable, gas: GasModel, cell: number, cylinder: Cylinder) {
    super();
    this.cylinder = cylinder;
    this.wallsMove = subject.pipe.wall.by === 'balance';
    this.sections = exhaustSections(subject);
    this.pieces = exhaustPieces(subject, this.sections, gas, cell);
    this.ducts = this.pieces.map(({ duct }) => duct);
    this.port = {
      kind: 'port',
      end: this.ducts[0]!.left,
      volume: cylinder.volume,
      role: 'swept',
      opening: new PortOpening(table, subject.engine.exhaust.discharge, cylinder.phase, true),
      flow: newFlow(),
    };
    this.outlet = this.ducts.at(-1)!.right;
    this.links = [this.port, ...stepsBetween(this.ducts)];
  }

  startCold({ ambient, pipeTemperature, tailTemperature }: ColdStart): void {
    const length = this.ducts.reduce((sum, duct) => sum + duct.geometry.length, 0);
    for (const { run, duct } of this.pieces) {
      const { cells, dx } = duct.geometry;
      for (let i = 0; i < cells; i++) {
        const share = (run.start + (i + 0.5) * dx) / length;
        const temperature = pipeTemperature + share * (tailTemperature - pipeTemperature);
        duct.setCell(i, ambient.pressure, temperature, 0, 1);
      }
    }
  }

  /** Walls are taken over only where the program finds them. */
  override restore(state: PartState, time: number): void {
    super.restore(state, time);
    if (!this.wallsMove) return;
    this.ducts.forEach(({ geometry, wallTemperature }, d) => {
      const walls = state.ducts[d]?.wallTemperature;
      if (walls === undefined) return;
      for (let i = 0; i < geometry.cells; i++)
        wallTemperature[i] = fieldAt(walls, (i + 0.5) / geometry.cells);
    });
  }

  override openBook(): void {
    this.sums = newSums();
  }

  override book(clock: Clock): void {
    const { sums, port } = this;
    const dt = clock[CLOCK.dt]!;
    const { stage } = this.cylinder;
    const out = port.flow[FLOW.mass]!;
    if (stage === 'plugging' && out < 0) sums.packed -= out * dt;
    if (stage === 'transfer') {
      sums.portImpulse += port.end.answer[ANSWER.pressure]! * dt;
      sums.transferTime += dt;
    }
  }
}

function newSums(): ExhaustBook {
  return { packed: 0, portImpulse: 0, transferTime: 0 };
}

/** The same places counted from another start [m]. */
function shifted<P extends { readonly start: number; readonly end: number }>(
  places: readonly P[],
  from: number,
): P[] {
  return places.map((one) => ({ ...one, start: one.start - from, end: one.end - from }));
}

function exhaustPieces(
  subject: Case,
  placed: Exhaust['sections'],
  gas: GasModel,
  cell: number,
): ExhaustPiece[] {
  const { pipe, engine, run: settings } = subject;
  const losses: WallLosses = {
    friction: settings.friction,
    heat: settings.wallHeat,
    roughness: pipe.roughness,
    heatFactor: settings.wallHeatFactor,
  };
  const factor = { cone: pipe.coneLoss, bend: pipe.bendLoss };
  return ductRuns('exhaust', placed, endCorrectionOf(pipe)).map((run) => {
    const geometry = meshRun(run, cell);
    const duct = newDuct(settings.scheme, run.name, gas, geometry, losses, true, settings.kernel);
    for (let i = 0; i < duct.geometry.cells; i++) {
      const position = run.start + (i + 0.5) * duct.geometry.dx - engine.passage.length;
      duct.wallTemperature[i] =
        position < 0 ? engine.passage.wallTemperature : wallTemperatureAt(pipe.wall, position);
    }
    const { ahead, back } = shapeLosses(
      geometry,
      shifted(placed, run.start),
      shifted(placedBends(pipe, engine.passage.length), run.start),
      factor,
    );
    duct.giveShapeLosses(ahead, back);
    return { run, duct };
  });
}
