/** Ducts and gases that several tests build: a straight or tapered duct of a perfect gas, closed at both ends. */

import {
  ConservativeDuct,
  GasModel,
  type Link,
  meshTapers,
  Network,
  type Taper,
} from '../../solver/index.ts';

export const AIR = GasModel.perfectGas(1.4, 287);

export function straight(
  name: string,
  length: number,
  diameter: number,
  cells: number,
  gas = AIR,
): ConservativeDuct {
  return duct(name, [{ length, diameter: [diameter, diameter] }], cells, gas);
}

export function duct(name: string, tapers: readonly Taper[], cells: number, gas = AIR): ConservativeDuct {
  return new ConservativeDuct(name, gas, meshTapers(tapers, cells));
}

export function closedTube(tube: ConservativeDuct, courant = 0.8): Network {
  const links: readonly Link[] = [
    { kind: 'closed', end: tube.left },
    { kind: 'closed', end: tube.right },
  ];
  return new Network([tube], [], links, courant);
}

/** Fills a duct cell by cell with a state of its position. */
export function fill(
  tube: ConservativeDuct,
  state: (x: number) => {
    readonly pressure: number;
    readonly temperature: number;
    readonly velocity?: number;
  },
): void {
  for (let i = 0; i < tube.cells; i++) {
    const { pressure, temperature, velocity } = state(tube.centre(i));
    tube.setCell(i, pressure, temperature, velocity ?? 0);
  }
}
