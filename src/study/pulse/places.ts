/** What is read of a rig: the state at a probe, and the contents of a vessel. */

import type { Rig, Vessel } from './rig.ts';
import { stretchAt } from './stretch.ts';
import type { Place } from './watch.ts';

/** A probe at a position: what a duct answers one with. */
export function probePlace(rig: Rig, position: number): Place {
  const { duct, origin } = stretchAt(rig.stretches, position);
  return {
    values: 4,
    read: (out) => duct.probe(position - origin, out),
  };
}

/** A vessel: pressure [Pa], mass [kg]. */
export function vesselPlace({ volume }: Vessel): Place {
  return {
    values: 2,
    read(out) {
      out[0] = volume.pressure;
      out[1] = volume.mass();
    },
  };
}
