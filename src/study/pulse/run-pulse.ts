/** One shot: builds the network of a pulse, marches it to its end under observation, and closes the books. */

import { energyGain, MarchFailure } from '../../../solver/index.ts';
import type { Pulse } from '../../model/pulse.ts';
import { notesOf } from './notes.ts';
import { probePlace, vesselPlace } from './places.ts';
import { profileOf } from './profile.ts';
import { probeRecord, vesselRecord } from './records.ts';
import type { DuctRecord, ProfileRecord, PulseBalance, PulseResult } from './result.ts';
import { buildRig, type Rig } from './rig.ts';
import { fastestPlace, Stall } from './stall.ts';
import { Watch } from './watch.ts';

/** The march of a pulse failed: its file asks for what cannot be computed. The command line shows the message as it is. */
export class PulseFailure extends Error {
  override readonly name = 'PulseFailure';
  readonly exitCode = 4;
}

/** Work between two looks up, in cells times steps: some twenty milliseconds, so that Ctrl-C is heard on any mesh. */
const WORK_BETWEEN_LOOKS = 200_000;

/** Runs a pulse. @throws PulseFailure */
export function runPulse(pulse: Pulse): PulseResult {
  const steps = pulseSteps(pulse);
  for (;;) {
    const step = steps.next();
    if (step.done === true) return step.value;
  }
}

/** Runs a pulse in steps, each of which gives the time reached [s]. @throws PulseFailure */
export function* pulseSteps(pulse: Pulse): Generator<number, PulseResult> {
  const rig = buildRig(pulse);
  const { network } = rig;
  for (const { duct } of rig.stretches) duct.decode();
  const start = { mass: network.mass(), energy: network.energyContent() };
  const reference = pulse.ambient.pressure;
  const probes = new Watch(
    [
      ...pulse.probes.map(({ at }) => probePlace(rig, at)),
      ...rig.vessels.map((vessel) => vesselPlace(vessel)),
    ],
    pulse.sampleEvery,
    pulse.until,
  );
  const profiles = yield* march(rig, pulse, probes);
  const count = pulse.probes.length;
  const traced = (k: number) => ({ times: probes.times, traces: probes.traces[k]! });
  return {
    schemaVersion: 1,
    kind: 'pulse',
    name: pulse.name,
    pulse,
    time: probes.times,
    probes: pulse.probes.map((probe, k) => probeRecord(rig, probe, traced(k), reference)),
    vessels: rig.vessels.map((vessel, k) => vesselRecord(rig, vessel, traced(count + k))),
    profiles,
    ducts: rig.stretches.map(ductRecord),
    steps: network.ledger.steps,
    rejectedSteps: network.ledger.rejected,
    balance: balanceOf(rig, start),
    notes: notesOf(pulse, rig),
  };
}

/** Marches to the end, from one wanted profile to the next. */
function* march(rig: Rig, pulse: Pulse, watch: Watch): Generator<number, ProfileRecord[]> {
  const { network, stretches } = rig;
  const wanted = [...new Set(pulse.profilesAt)].sort((a, b) => a - b);
  const profiles: ProfileRecord[] = [];
  const stall = new Stall();
  const cells = stretches.reduce((sum, { duct }) => sum + duct.geometry.cells, 0);
  const stepsBetweenLooks = Math.max(1, Math.floor(WORK_BETWEEN_LOOKS / cells));
  for (const stop of [...wanted, pulse.until]) {
    const slack = 1e-12 * pulse.until;
    while (stop - network.time > slack) {
      if (stall.note(stepOnce(rig, stop - network.time))) throw stalled(rig, pulse);
      watch.look(network.time);
      if (network.ledger.steps % stepsBetweenLooks === 0) yield network.time;
    }
    if (profiles.length < wanted.length) profiles.push(profileOf(stretches, stop));
  }
  return profiles;
}

/** One step, and its length [s]. */
function stepOnce({ network }: Rig, limit: number): number {
  try {
    return network.step(limit);
  } catch (error) {
    if (!(error instanceof MarchFailure)) throw error;
    throw new PulseFailure(`The pulse could not be marched on: ${error.message}.`);
  }
}

function stalled(rig: Rig, { scheme }: Pulse): PulseFailure {
  const reached = (1e3 * rig.network.time).toPrecision(4);
  const other =
    scheme === 'mesh' ? ' Scheme mesh does not keep mass and energy; try scheme conservative.' : '';
  return new PulseFailure(
    `The pulse could not be marched on: after ${reached} ms steps have all but stopped; ${fastestPlace(rig)}.${other}`,
  );
}

function ductRecord({ duct, origin }: Rig['stretches'][number]): DuctRecord {
  const { length, cells, dx } = duct.geometry;
  return { name: duct.name, start: origin, length, cells, cell: dx };
}

function balanceOf(rig: Rig, start: { readonly mass: number; readonly energy: number }): PulseBalance {
  const { network, thermal } = rig;
  const { ledger } = network;
  const massEnd = network.mass();
  const energyEnd = network.energyContent();
  return {
    massStart: start.mass,
    massEnd,
    massIn: ledger.massIn,
    energyStart: start.energy,
    energyEnd,
    energyIn: ledger.energyIn,
    wallHeat: ledger.ductHeat,
    massError: (massEnd - start.mass - ledger.massIn) / start.mass,
    energyError: (energyEnd - start.energy - energyGain(ledger)) / thermal,
  };
}
