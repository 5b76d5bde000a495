/**
 * A running engine, assembled: cylinder - exhaust port - passage, header, diffuser, belly, baffle, stinger - silencer or open
 * air; crankcase - transfers - cylinder; open air - tract - reed, piston port or disc - crankcase.
 */

import { GasModel, Network, newReservoir, setReservoir } from '../../solver/index.ts';
import type { Case } from '../model/case.ts';
import { engineAt } from '../timing/roof-over-speed.ts';
import type { PortSchedule } from '../timing/schedule.ts';
import { sweptVolume } from '../timing/volume.ts';
import { knownSchedule } from './known-schedule.ts';
import { Crankcase } from './parts/crankcase.ts';
import { Cylinder } from './parts/cylinder.ts';
import { Exhaust } from './parts/exhaust.ts';
import { Intake } from './parts/intake.ts';
import { OpenAir } from './parts/open-air.ts';
import type { EnginePart } from './parts/part.ts';
import { Silencer } from './parts/silencer.ts';
import { Transfers } from './parts/transfers.ts';

export interface EngineNetwork {
  readonly subject: Case;
  readonly rpm: number;
  readonly schedule: PortSchedule;
  readonly displacement: number;
  readonly network: Network;
  readonly gas: GasModel;
  readonly parts: readonly EnginePart[];
  /** All cylinders; a cycle begins with the exhaust opening of the first, which is the one that is read. */
  readonly cylinders: readonly Cylinder[];
  readonly cylinder: Cylinder;
  readonly crankcase: Crankcase;
  readonly transfers: Transfers;
  readonly intake: Intake;
  readonly exhaust: Exhaust;
}

/** Builds the network of a case at a speed [rpm] with cells of about a length [m]; the phase of its crank is free [deg]. */
export function buildEngine(stated: Case, rpm: number, cell: number, phaseDeg = 0): EngineNetwork {
  const engine = engineAt(stated.engine, rpm);
  const subject = engine === stated.engine ? stated : { ...stated, engine };
  const { pipe, run } = subject;
  const schedule = knownSchedule(engine);
  const gas = GasModel.charge(engine.fuel.hydrogenCarbonRatio, engine.fuel.equivalenceRatio);
  const air = newReservoir();
  setReservoir(air, gas, engine.ambient.pressure, engine.ambient.temperature, 0);
  const phase = { rpm, phaseDeg };

  const cylinder = new Cylinder(engine, schedule, gas, phase);
  const crankcase = new Crankcase(engine, schedule.volumes, gas, phase);
  const exhaust = new Exhaust(subject, schedule.exhaustStream, gas, cell, cylinder);
  const transfers = new Transfers(subject, schedule.transferStream, {
    from: crankcase,
    to: cylinder,
    gas,
    cell,
  });
  const intake = new Intake(subject, schedule.intake, gas, { cell, air, crankcase, phase });
  const behind =
    pipe.silencer === null
      ? []
      : [new Silencer(pipe.silencer, subject, gas, { inlet: exhaust.outlet, cell })];
  const tail = new OpenAir(behind.at(-1)?.outlet ?? exhaust.outlet, air);

  const parts = [cylinder, crankcase, exhaust, transfers, intake, ...behind, tail];
  const network = new Network(
    parts.flatMap((part) => part.ducts),
    parts.flatMap((part) => part.volumes),
    parts.flatMap((part) => part.links),
    run.courant,
    run.mixing,
  );
  const displacement = sweptVolume(schedule.volumes);
  return {
    subject,
    rpm,
    schedule,
    displacement,
    network,
    gas,
    parts,
    cylinders: [cylinder],
    cylinder,
    crankcase,
    transfers,
    intake,
    exhaust,
  };
}
