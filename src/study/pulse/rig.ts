/**
 * A pulse's network: one duct for each run of sections that join without a jump, a sudden change of area between two
 * runs, and what the file says at the two ends. An open end with an end correction lengthens its duct by that much; the
 * positions of the file stay where they are.
 */

import {
  cellsFor,
  GasModel,
  type Link,
  meshTapers,
  Network,
  newDuct,
  stepBetween,
  type Taper,
  totalLength,
  type Volume,
} from '../../../solver/index.ts';
import type { Pulse, PulseEnd, PulseGas, PulseSection } from '../../model/pulse.ts';
import { endLink } from './end-link.ts';
import { fillDuct } from './start.ts';
import type { Stretch } from './stretch.ts';

export interface Vessel {
  readonly side: 'left' | 'right';
  readonly volume: Volume;
}

export interface Rig {
  readonly network: Network;
  readonly gas: GasModel;
  /** Burnt share of the gas, 0 or 1 [-]. */
  readonly burnt: number;
  readonly stretches: readonly Stretch[];
  readonly vessels: readonly Vessel[];
  /** Thermal energy p V/(gamma-1) at the start, which errors of the energy balance are measured by [J]. */
  readonly thermal: number;
}

/** Hydrogen to carbon ratio and equivalence ratio of what burnt to the exhaust gas. */
export const EXHAUST_OF = { hydrogenCarbonRatio: 1.85, equivalenceRatio: 1.1 } as const;

/** Builds the network of a pulse and fills it with its start. */
export function buildRig(pulse: Pulse): Rig {
  const gas = gasOf(pulse.gas);
  const burnt = pulse.gas.kind === 'exhaust' ? 1 : 0;
  const stretches = stretchesOf(pulse, gas);
  const links: Link[] = stretches
    .slice(1)
    .map((right, k) => stepBetween(stretches[k]!.duct.right, right.duct.left));
  const vessels: Vessel[] = [];
  for (const side of ['left', 'right'] as const) {
    const { link, volume } = endLink(pulse, side, gas, burnt, stretches);
    links.push(link);
    if (volume !== null) vessels.push({ side, volume });
  }
  let thermal = 0;
  for (const stretch of stretches) thermal += fillDuct(stretch, gas, burnt);
  for (const { volume } of vessels)
    thermal += (volume.pressure * volume.volumeAt(0)) / (gas.gamma(volume.temperature[0]!, burnt) - 1);
  const network = new Network(
    stretches.map((one) => one.duct),
    vessels.map((one) => one.volume),
    links,
    pulse.courant,
    pulse.mixing,
  );
  return { network, gas, burnt, stretches, vessels, thermal };
}

function gasOf(gas: PulseGas): GasModel {
  switch (gas.kind) {
    case 'perfect':
      return GasModel.perfectGas(gas.gamma, gas.gasConstant);
    case 'air':
      return GasModel.air();
    case 'exhaust':
      return GasModel.charge(EXHAUST_OF.hydrogenCarbonRatio, EXHAUST_OF.equivalenceRatio);
  }
}

/** Length that an end's correction adds to its duct [m]. */
export function endCorrection(end: PulseEnd, diameter: number): number {
  return end.kind === 'open' ? end.endCorrection * 0.5 * diameter : 0;
}

function stretchesOf(pulse: Pulse, gas: GasModel): readonly Stretch[] {
  const runs: PulseSection[][] = [];
  for (const section of pulse.sections) {
    const run = runs.at(-1);
    if (run === undefined || section.step) runs.push([section]);
    else run.push(section);
  }
  let start = 0;
  return runs.map((sections, k) => {
    const stretch = stretchOf(pulse, gas, sections, start, k === 0, k === runs.length - 1);
    start = stretch.end;
    return stretch;
  });
}

function stretchOf(
  pulse: Pulse,
  gas: GasModel,
  sections: readonly PulseSection[],
  start: number,
  first: boolean,
  last: boolean,
): Stretch {
  const left = sections[0]!.diameter[0];
  const right = sections.at(-1)!.diameter[1];
  const before = first ? endCorrection(pulse.leftEnd, left) : 0;
  const after = last ? endCorrection(pulse.rightEnd, right) : 0;
  const tapers: Taper[] = sections.map(({ length, diameter }) => ({ length, diameter }));
  const end = start + totalLength(tapers);
  if (before > 0) tapers.unshift({ length: before, diameter: [left, left] });
  if (after > 0) tapers.push({ length: after, diameter: [right, right] });
  const name = sections.length === 1 ? sections[0]!.name : `${sections[0]!.name} to ${sections.at(-1)!.name}`;
  const geometry = meshTapers(tapers, cellsFor(totalLength(tapers), pulse.cell));
  const losses = { friction: pulse.friction, heat: pulse.wallHeat, roughness: pulse.roughness };
  const mixed = pulse.gas.kind === 'exhaust';
  const duct = newDuct(pulse.scheme, name, gas, geometry, losses, mixed, pulse.kernel);
  duct.wallTemperature.fill(pulse.wallTemperature);
  return { duct, sections, start, end, origin: start - before, tapers };
}
