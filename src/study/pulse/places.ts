/** What is read of a rig: the state at a probe with its two waves, and the contents of a vessel. */

import { PROBE } from './probe-values.ts';
import type { Rig, Vessel } from './rig.ts';
import { stretchAt } from './stretch.ts';
import { wavePressure } from './superposition.ts';
import type { Place } from './watch.ts';

/** A probe at a position; the waves are split against a reference pressure [Pa]. */
export function probePlace(rig: Rig, position: number, reference: number): Place {
  const { duct, origin } = stretchAt(rig.stretches, position);
  const { gas, burnt } = rig;
  const R = gas.gasConstant(burnt);
  return {
    values: 6,
    read(out) {
      duct.probe(position - origin, out);
      const pressure = out[PROBE.pressure]!;
      const velocity = out[PROBE.velocity]!;
      const temperature = out[PROBE.temperature]!;
      const gamma = gas.gamma(temperature, burnt);
      const soundSpeed = Math.sqrt(gamma * R * temperature);
      out[PROBE.forward] = wavePressure(pressure, velocity, soundSpeed, gamma, reference);
      out[PROBE.backward] = wavePressure(pressure, -velocity, soundSpeed, gamma, reference);
    },
  };
}

/** A vessel: pressure [Pa], temperature [K], mass [kg]. */
export function vesselPlace({ volume }: Vessel): Place {
  return {
    values: 3,
    read(out) {
      out[0] = volume.pressure;
      out[1] = volume.temperature[0]!;
      out[2] = volume.mass();
    },
  };
}
