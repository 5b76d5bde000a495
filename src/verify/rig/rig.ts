/** What the problems are built of: a gas, ducts, reservoirs, and a network that is watched as it marches. */

import {
  cellsFor,
  GasModel,
  type Link,
  type MarchingDuct,
  meshTapers,
  Network,
  newDuct,
  newFlow,
  newReservoir,
  type Reservoir,
  type Scheme,
  setReservoir,
  type Taper,
} from '../../../solver/index.ts';

/** Air as the textbooks have it: gamma 1.4, R 287 J/(kg K). */
export const AIR = GasModel.perfectGas(1.4, 287);

/** A state at a place: pressure [Pa], temperature [K], velocity [m/s]. */
export interface Filling {
  readonly pressure: number;
  readonly temperature: number;
  readonly velocity?: number;
}

export interface Probe extends Required<Filling> {
  readonly density: number;
}

/** What a title says of a scheme that is not the usual one. */
export function byScheme(scheme: Scheme): string {
  if (scheme === 'conservative') return '';
  return scheme === 'mesh' ? ', mesh method' : ', finite volumes';
}

/** A straight duct of 40 mm bore. */
export function straight(
  length: number,
  cells: number,
  gas = AIR,
  scheme: Scheme = 'conservative',
): MarchingDuct {
  return newDuct(scheme, 'tube', gas, meshTapers([{ length, diameter: [0.04, 0.04] }], cells));
}

/** A duct of tapers with cells near the wanted length [m]. */
export function tapered(
  tapers: readonly Taper[],
  cell: number,
  gas = AIR,
  scheme: Scheme = 'conservative',
): MarchingDuct {
  const length = tapers.reduce((sum, taper) => sum + taper.length, 0);
  return newDuct(scheme, 'duct', gas, meshTapers(tapers, cellsFor(length, cell)));
}

/** Fills a duct with a state of the place [m]. */
export function fill(duct: MarchingDuct, state: (x: number) => Filling): void {
  const { cells, dx } = duct.geometry;
  for (let i = 0; i < cells; i++) {
    const { pressure, temperature, velocity } = state((i + 0.5) * dx);
    duct.setCell(i, pressure, temperature, velocity ?? 0);
  }
}

const out = new Float64Array(4);

/** State at a place [m]. */
export function probeAt(duct: MarchingDuct, x: number): Probe {
  duct.probe(x, out);
  const [pressure, velocity, temperature, density] = out as unknown as [number, number, number, number];
  return { pressure, velocity, temperature, density };
}

export function reservoirOf(gas: GasModel, pressure: number, temperature: number, burnt = 0): Reservoir {
  const reservoir = newReservoir();
  setReservoir(reservoir, gas, pressure, temperature, burnt);
  return reservoir;
}

export type EndKind =
  | 'closed'
  | { readonly open: Reservoir; readonly share?: number }
  | { readonly endless: Reservoir; readonly incident?: (time: number) => number };

/** A link for one end of a duct. */
export function linkOf(duct: MarchingDuct, side: 'left' | 'right', kind: EndKind): Link {
  const end = duct[side];
  if (kind === 'closed') return { kind: 'closed', end };
  if ('open' in kind)
    return { kind: 'atmosphere', end, reservoir: kind.open, share: kind.share ?? 1, flow: newFlow() };
  const incident = kind.incident ?? (() => kind.endless[0]!);
  return { kind: 'nonreflecting', end, reservoir: kind.endless, incident, flow: newFlow() };
}

/** One duct between two ends. */
export function between(left: EndKind, duct: MarchingDuct, right: EndKind, courant = 0.9): Network {
  return new Network([duct], [], [linkOf(duct, 'left', left), linkOf(duct, 'right', right)], courant);
}

/** Marches to a time and calls `each` at the start and after every step. */
export function watch(network: Network, until: number, each: (time: number) => void): void {
  for (const duct of network.ducts) duct.decode();
  each(network.time);
  while (until - network.time > 1e-12 * until) {
    network.step(until - network.time);
    each(network.time);
  }
}
