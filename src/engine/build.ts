/**
 * A running engine as a network: cylinder - exhaust port - passage, header, diffuser, belly, baffle, stinger - open air;
 * crankcase - transfers - cylinder; open air - tract - reed, piston port or disc - crankcase.
 */

import {
  CLOCK,
  fixedOpening,
  GasModel,
  type Link,
  type MarchingDuct,
  Network,
  newDuct,
  newFlow,
  newReservoir,
  type Opening,
  type PassageLink,
  type PortLink,
  ReedValve,
  reactionHeat,
  rigidDrive,
  setReservoir,
  stepBetween,
  Volume,
  type WallLosses,
} from '../../solver/index.ts';
import type { Case } from '../model/case.ts';
import type { Engine } from '../model/engine.ts';
import type { Intake } from '../model/intake.ts';
import type { RunSettings } from '../model/run-settings.ts';
import { type DuctRun, ductRuns, exhaustSections, meshRun } from '../pipe/exhaust.ts';
import { type PortSchedule, portSchedule, samplePort } from '../timing/schedule.ts';
import { sweptVolume } from '../timing/volume.ts';
import { CrankcaseDrive, type CylinderDrive, cylinderDriveOf, PortOpening } from './drives.ts';
import { wallTemperatureAt } from './wall.ts';

/**
 * End correction of the intake's mouth, in radii: a pipe without flange, 0.613 for long weak waves (Levine & Schwinger 1948),
 * rounded as the pipe's default is. In a wide flange it would be 0.82 (value from memory).
 */
const MOUTH_CORRECTION = 0.6;
/** Length of a silencer's outlet tube, which the case does not ask for [m]. */
const OUTLET_LENGTH = 0.08;

export interface EngineNetwork {
  readonly subject: Case;
  readonly rpm: number;
  readonly schedule: PortSchedule;
  readonly displacement: number;
  readonly network: Network;
  readonly gas: GasModel;
  readonly cylinder: Volume;
  readonly cylinderDrive: CylinderDrive;
  readonly crankcase: Volume;
  readonly exhaust: readonly { readonly run: DuctRun; readonly duct: MarchingDuct }[];
  readonly intake: readonly MarchingDuct[];
  readonly exhaustPort: PortLink;
  readonly intakePort: PortLink;
  readonly transfer: PassageLink;
}

/** Builds the network of a case at a speed [rpm] with cells of about a length [m]. */
export function buildEngine(subject: Case, rpm: number, cell: number): EngineNetwork {
  const { engine, pipe, run } = subject;
  const schedule = portSchedule(engine);
  const gas = GasModel.charge(engine.fuel.hydrogenCarbonRatio, engine.fuel.equivalenceRatio);
  const { fuel } = engine;
  const heat =
    engine.combustion.completeness *
    reactionHeat(fuel.hydrogenCarbonRatio, fuel.equivalenceRatio, fuel.lowerHeatingValue);
  const cylinderDrive = cylinderDriveOf(engine, schedule.volumes, rpm, heat);
  const cylinder = new Volume('cylinder', gas, cylinderDrive, engine.scavenging);
  const crankcase = new Volume('crankcase', gas, new CrankcaseDrive(engine, schedule.volumes, rpm));

  const exhaust = exhaustDucts(subject, gas, cell);
  const tract = tractDucts(engine, gas, cell, run);
  const first = exhaust[0] as (typeof exhaust)[number];
  const last = exhaust[exhaust.length - 1] as (typeof exhaust)[number];
  const air = newReservoir();
  setReservoir(air, gas, engine.ambient.pressure, engine.ambient.temperature, 0);

  const exhaustPort: PortLink = {
    kind: 'port',
    end: first.duct.left,
    volume: cylinder,
    role: 'exhaust',
    opening: new PortOpening(schedule.exhaustStream, engine.exhaust.discharge, rpm, true),
    flow: newFlow(),
  };
  const { passage } = engine.transfers;
  const transfer: PassageLink = {
    kind: 'passage',
    from: crankcase,
    to: cylinder,
    toRole: 'transfer',
    opening: new PortOpening(schedule.transferStream, engine.transfers.discharge, rpm, false),
    inertance: passage.inertia ? passage.length / passage.area : 0,
    column: new Float64Array(2),
    flow: newFlow(),
  };
  const tractEnd = tract[tract.length - 1] as MarchingDuct;
  const intakePort: PortLink = {
    kind: 'port',
    end: tractEnd.right,
    volume: crankcase,
    role: 'plain',
    opening: intakeOpening(engine.intake, schedule, rpm),
    flow: newFlow(),
  };
  const mouth: Link = {
    kind: 'atmosphere',
    end: (tract[0] as MarchingDuct).left,
    reservoir: air,
    share: 1,
    flow: newFlow(),
  };
  const links: Link[] = [
    exhaustPort,
    transfer,
    intakePort,
    mouth,
    ...steps(exhaust.map((e) => e.duct)),
    ...steps(tract),
  ];
  const volumes = [cylinder, crankcase];
  const ducts: MarchingDuct[] = [...exhaust.map((e) => e.duct), ...tract];
  if (pipe.silencer === null) {
    links.push({ kind: 'atmosphere', end: last.duct.right, reservoir: air, share: 1, flow: newFlow() });
  } else {
    const silencer = new Volume('silencer', gas, rigidDrive(pipe.silencer.volume));
    const outlet = tailDuct(pipe.silencer.outletDiameter, gas, cell, subject);
    volumes.push(silencer);
    ducts.push(outlet);
    links.push(
      {
        kind: 'port',
        end: last.duct.right,
        volume: silencer,
        role: 'plain',
        opening: fixedOpening(last.duct.right.area),
        flow: newFlow(),
      },
      {
        kind: 'port',
        end: outlet.left,
        volume: silencer,
        role: 'plain',
        opening: outletOf(outlet.left.area, pipe.silencer.discharge),
        flow: newFlow(),
      },
      { kind: 'atmosphere', end: outlet.right, reservoir: air, share: 1, flow: newFlow() },
    );
  }
  return {
    subject,
    rpm,
    schedule,
    displacement: sweptVolume(schedule.volumes),
    network: new Network(ducts, volumes, links, run.courant),
    gas,
    cylinder,
    cylinderDrive,
    crankcase,
    exhaust,
    intake: tract,
    exhaustPort,
    intakePort,
    transfer,
  };
}

function lossesOf(subject: Case): WallLosses {
  const { run, pipe } = subject;
  return { friction: run.friction, heat: run.wallHeat, roughness: pipe.roughness };
}

function exhaustDucts(
  subject: Case,
  gas: GasModel,
  cell: number,
): { readonly run: DuctRun; readonly duct: MarchingDuct }[] {
  const { pipe, engine } = subject;
  const sections = exhaustSections(subject);
  const tail = sections[sections.length - 1]?.diameter[1] ?? 0;
  const correction = pipe.silencer === null ? pipe.endCorrection * 0.5 * tail : 0;
  return ductRuns('exhaust', sections, correction).map((run) => {
    const duct = newDuct(subject.run.scheme, run.name, gas, meshRun(run, cell), lossesOf(subject));
    for (let i = 0; i < duct.geometry.cells; i++) {
      const position = run.start + (i + 0.5) * duct.geometry.dx - engine.passage.length;
      duct.wallTemperature[i] =
        position < 0 ? engine.passage.wallTemperature : wallTemperatureAt(pipe.wall, position);
    }
    return { run, duct };
  });
}

function tractDucts(engine: Engine, gas: GasModel, cell: number, settings: RunSettings): MarchingDuct[] {
  const { tract } = engine.intake;
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
  return ductRuns('tract', sections, 0).map((run) =>
    newDuct(settings.scheme, run.name, gas, meshRun(run, cell), {
      friction: settings.friction,
      heat: 'none',
      roughness: 1e-5,
    }),
  );
}

function tailDuct(diameter: number, gas: GasModel, cell: number, subject: Case): MarchingDuct {
  const length = OUTLET_LENGTH + 0.5 * subject.pipe.endCorrection * diameter;
  const run: DuctRun = { name: 'outlet', start: 0, tapers: [{ length, diameter: [diameter, diameter] }] };
  return newDuct(subject.run.scheme, 'outlet', gas, meshRun(run, cell), {
    friction: subject.run.friction,
    heat: 'none',
    roughness: subject.pipe.roughness,
  });
}

function steps(ducts: readonly MarchingDuct[]): Link[] {
  return ducts.slice(1).map((duct, k) => stepBetween((ducts[k] as MarchingDuct).right, duct.left));
}

/** From a silencer into its outlet the stream contracts; the other way it leaves as a jet that fills the pipe. */
function outletOf(area: number, discharge: number): Opening {
  return { set: () => undefined, areaOut: discharge * area, areaIn: area };
}

function intakeOpening(intake: Intake, schedule: PortSchedule, rpm: number): Opening {
  if (intake.kind === 'reed') {
    return new ReedValve({ ...intake.petals, cageArea: intake.cageArea, discharge: intake.discharge });
  }
  const table = schedule.intake;
  if (table === null) throw new Error('a mechanical intake has a table of its area');
  const opening: Opening = {
    areaOut: 0,
    areaIn: 0,
    set: (clock) => {
      const area = intake.discharge * samplePort(table, 6 * rpm * (clock[CLOCK.stage] as number));
      opening.areaOut = area;
      opening.areaIn = area;
    },
  };
  return opening;
}
