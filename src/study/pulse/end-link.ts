/** What a pulse file says of an end, as a link of the network; a vessel brings its volume. */

import {
  type DuctEnd,
  fixedOpening,
  type GasModel,
  type Link,
  newFlow,
  newReservoir,
  type Reservoir,
  rigidDrive,
  setReservoir,
  Volume,
} from '../../../solver/index.ts';
import type { Pulse, PulseEnd, PulseSection } from '../../model/pulse.ts';
import { areaOf } from '../../pipe/circle.ts';
import type { Stretch } from './stretch.ts';

export interface EndParts {
  readonly link: Link;
  readonly volume: Volume | null;
}

/** The link of one end of a pulse. */
export function endLink(
  pulse: Pulse,
  side: 'left' | 'right',
  gas: GasModel,
  burnt: number,
  stretches: readonly Stretch[],
): EndParts {
  const stretch = side === 'left' ? stretches[0]! : stretches.at(-1)!;
  const end = side === 'left' ? stretch.duct.left : stretch.duct.right;
  const stated = side === 'left' ? pulse.leftEnd : pulse.rightEnd;
  const section = side === 'left' ? stretch.sections[0]! : stretch.sections.at(-1)!;
  switch (stated.kind) {
    case 'closed':
      return { link: { kind: 'closed', end }, volume: null };
    case 'open':
      return { link: toAtmosphere(end, 1, pulse, gas, burnt), volume: null };
    case 'nozzle':
      return {
        link: toAtmosphere(end, areaOf(stated.diameter) / end.area, pulse, gas, burnt),
        volume: null,
      };
    case 'nonreflecting':
    case 'incident':
      return { link: nonReflecting(end, stated, section, gas, burnt), volume: null };
    case 'vessel': {
      const volume = new Volume(`${side} vessel`, gas, rigidDrive(stated.volume));
      volume.fill(0, stated.pressure, stated.temperature, burnt);
      const opening = fixedOpening(areaOf(stated.openingDiameter));
      return { link: { kind: 'port', end, volume, role: 'plain', opening, flow: newFlow() }, volume };
    }
  }
}

function toAtmosphere(end: DuctEnd, share: number, pulse: Pulse, gas: GasModel, burnt: number): Link {
  const reservoir = newReservoir();
  setReservoir(reservoir, gas, pulse.ambient.pressure, pulse.ambient.temperature, burnt);
  return { kind: 'atmosphere', end, reservoir, share: Math.min(1, share), flow: newFlow() };
}

/**
 * The pipe goes on without end, filled as its last section is. A stream in that section arrives as a steady wave,
 *   X = 1 + (gamma-1) u/(4 a),  u into the duct,
 * and a prescribed wave p' is added to it.
 */
function nonReflecting(
  end: DuctEnd,
  stated: Extract<PulseEnd, { kind: 'nonreflecting' | 'incident' }>,
  section: PulseSection,
  gas: GasModel,
  burnt: number,
): Link {
  const { pressure, temperature, velocity } = section;
  const reservoir: Reservoir = newReservoir();
  setReservoir(reservoir, gas, pressure, temperature, burnt);
  const gamma = gas.gamma(temperature, burnt);
  const soundSpeed = Math.sqrt(gamma * gas.gasConstant(burnt) * temperature);
  const X = Math.max(0, 1 - ((gamma - 1) * end.side * velocity) / (4 * soundSpeed));
  const steady = pressure * X ** ((2 * gamma) / (gamma - 1));
  const incident =
    stated.kind === 'incident'
      ? (time: number): number =>
          steady + stated.amplitude * Math.exp(-(((time - stated.at) / stated.width) ** 2))
      : (): number => steady;
  return { kind: 'nonreflecting', end, reservoir, incident, flow: newFlow() };
}
