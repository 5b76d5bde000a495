/**
 * Traces turned into records. Samples lie between steps, so only pressure, velocity and density (or mass) are taken from
 * the march; the temperature follows from the gas law and the waves from what stands beside them in the same line.
 */

import { PROBE } from './probe-values.ts';
import type { Extreme, ProbeRecord, VesselRecord } from './result.ts';
import type { Rig, Vessel } from './rig.ts';
import { wavePressure } from './superposition.ts';

export interface Traced {
  readonly times: readonly number[];
  readonly traces: readonly (readonly number[])[];
}

/** The record of a probe; its waves are split against a reference pressure [Pa]. */
export function probeRecord(
  { gas, burnt }: Rig,
  { name, at }: { readonly name: string; readonly at: number },
  { times, traces }: Traced,
  reference: number,
): ProbeRecord {
  const R = gas.gasConstant(burnt);
  const pressure = traces[PROBE.pressure]!;
  const velocity = traces[PROBE.velocity]!;
  const density = traces[PROBE.density]!;
  const temperature = pressure.map((p, k) => p / (density[k]! * R));
  const wave = (direction: 1 | -1): number[] =>
    pressure.map((p, k) => {
      const gamma = gas.gamma(temperature[k]!, burnt);
      const soundSpeed = Math.sqrt(gamma * R * temperature[k]!);
      return wavePressure(p, direction * velocity[k]!, soundSpeed, gamma, reference);
    });
  return {
    name,
    position: at,
    pressure,
    velocity,
    temperature,
    density,
    forward: wave(1),
    backward: wave(-1),
    peak: extreme(times, pressure, (a, b) => a > b),
    trough: extreme(times, pressure, (a, b) => a < b),
  };
}

export function vesselRecord(
  { gas, burnt }: Rig,
  { side, volume }: Vessel,
  { traces }: Traced,
): VesselRecord {
  const pressure = traces[0]!;
  const mass = traces[1]!;
  const perMass = volume.volumeAt(0) / gas.gasConstant(burnt);
  return { side, pressure, temperature: pressure.map((p, k) => (p * perMass) / mass[k]!), mass };
}

function extreme(
  times: readonly number[],
  pressure: readonly number[],
  beyond: (a: number, b: number) => boolean,
): Extreme {
  const at = pressure.reduce((best, p, k) => (beyond(p, pressure[best]!) ? k : best), 0);
  return { pressure: pressure[at]!, time: times[at]! };
}
