/** The intake: open air - tract - reed, piston port or disc - crankcase. */

import {
  CLOCK,
  type Clock,
  FLOW,
  type GasModel,
  type Link,
  type MarchingDuct,
  newDuct,
  newFlow,
  type Opening,
  type PortLink,
  type ReedPetals,
  ReedValve,
  type Reservoir,
} from '../../../solver/index.ts';
import type { Case } from '../../model/case.ts';
import type { Intake as IntakeModel } from '../../model/intake.ts';
import { ductRuns, meshRun } from '../../pipe/exhaust.ts';
import { type PortTable, turnIntoArea } from '../../timing/schedule.ts';
import type { CrankPhase } from './crank-phase.ts';
import type { Crankcase } from './crankcase.ts';
import { stepsBetween } from './joints.ts';
import { type ColdStart, EnginePart } from './part.ts';
import { fillDuct } from './saved.ts';

/**
 * End correction of the intake's mouth, in radii: a pipe without flange, 0.613 for long weak waves (Levine & Schwinger 1948),
 * rounded as the pipe's default is. In a wide flange it would be 0.82 (value from memory).
 */
const MOUTH_CORRECTION = 0.6;
/** Roughness of the tract's wall [m]. Value from memory, for machined or cast and dressed surfaces. */
const ROUGHNESS = 1e-5;

export interface IntakeBook {
  /** Fresh mass that came in, net [kg]. */
  delivered: number;
}

export class Intake extends EnginePart {
  override readonly ducts: readonly MarchingDuct[];
  override readonly links: readonly Link[];
  readonly port: PortLink;
  sums = newSums();
  private readonly reed: ReedValve | null;

  /** `table` is the area of a mechanical intake; null: a reed. */
  constructor(
    { engine, run }: Case,
    table: PortTable | null,
    gas: GasModel,
    { cell, air, crankcase, phase }: IntakePlace,
  ) {
    super();
    const { intake } = engine;
    this.ducts = tractDucts(intake, gas, cell, run);
    const opening = openingOf(intake, table, phase);
    this.reed = opening instanceof ReedValve ? opening : null;
    this.port = {
      kind: 'port',
      end: this.ducts.at(-1)!.right,
      volume: crankcase.volume,
      role: 'plain',
      opening,
      flow: newFlow(),
    };
    const mouth = this.ducts[0]!.left;
    this.links = [
      this.port,
      { kind: 'atmosphere', end: mouth, reservoir: air, share: 1, flow: newFlow() },
      ...stepsBetween(this.ducts),
    ];
  }

  startCold({ ambient }: ColdStart): void {
    for (const duct of this.ducts) fillDuct(duct, ambient.pressure, ambient.temperature, 0);
  }

  protected override motion(): readonly number[] {
    return this.reed === null ? [] : [this.reed.lift, this.reed.speed];
  }

  protected override setMotion([lift, speed]: readonly number[]): void {
    if (this.reed === null) return;
    this.reed.lift = lift as number;
    this.reed.speed = speed as number;
  }

  override openBook(): void {
    this.sums = newSums();
  }

  override book(clock: Clock): void {
    const { flow } = this.port;
    const dt = clock[CLOCK.dt]!;
    this.sums.delivered -= (flow[FLOW.mass]! - flow[FLOW.burnt]!) * dt;
  }
}

/** Where an intake stands: cells of about a length [m], between the air and a crankcase. */
export interface IntakePlace {
  readonly cell: number;
  readonly air: Reservoir;
  readonly crankcase: Crankcase;
  readonly phase: CrankPhase;
}

function newSums(): IntakeBook {
  return { delivered: 0 };
}

function tractDucts({ tract }: IntakeModel, gas: GasModel, cell: number, run: Case['run']): MarchingDuct[] {
  const mouthRadius = 0.5 * (tract[0]?.diameter[0] ?? 0);
  const sections = [
    {
      name: 'mouth',
      role: 'tract' as const,
      length: MOUTH_CORRECTION * mouthRadius,
      diameter: [2 * mouthRadius, 2 * mouthRadius] as const,
      step: false,
    },
    ...tract,
  ];
  const losses = { friction: run.friction, heat: 'none', roughness: ROUGHNESS } as const;
  return ductRuns('tract', sections, 0).map((piece) =>
    newDuct(run.scheme, piece.name, gas, meshRun(piece, cell), losses, true, run.kernel),
  );
}

/** Written out: spread, each engine's petals are of a shape of their own, and the march is compiled anew for every one. */
function petalsOf({ petals, cageArea, discharge }: Extract<IntakeModel, { kind: 'reed' }>): ReedPetals {
  const { count, width, length, thickness, density, modulus, stop, damping, openSides } = petals;
  return { count, width, length, thickness, density, modulus, stop, damping, openSides, cageArea, discharge };
}

function openingOf(intake: IntakeModel, table: PortTable | null, { rpm, phaseDeg }: CrankPhase): Opening {
  if (intake.kind === 'reed') return new ReedValve(petalsOf(intake));
  if (table === null) throw new Error('a mechanical intake has a table of its area');
  const turned = new Float64Array(1);
  const opening: Opening = {
    areaOut: 0,
    areaIn: 0,
    set: (clock) => {
      turned[0] = 6 * rpm * clock[CLOCK.stage]! - phaseDeg;
      turnIntoArea(table, turned);
      const area = intake.discharge * (turned[0] as number);
      opening.areaOut = area;
      opening.areaIn = area;
    },
  };
  return opening;
}
