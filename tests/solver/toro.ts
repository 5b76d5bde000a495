/**
 * Shock tubes of Toro, Riemann Solvers and Numerical Methods for Fluid Dynamics, tables 4.1 to 4.3 (inputs from memory),
 * on a duct of the network. Units of the tables: gas constant 1.
 */

import {
  ConservativeDuct,
  cellsFor,
  type FiniteVolumeDuct,
  GasModel,
  type Link,
  meshTapers,
  Network,
} from '../../solver/index.ts';

export interface ShockTube {
  readonly name: string;
  /** Density, velocity, pressure. */
  readonly left: readonly [number, number, number];
  readonly right: readonly [number, number, number];
  /** Place of the membrane in the tube of length 1, and the time looked at. */
  readonly membrane: number;
  readonly time: number;
}

export const TORO: readonly ShockTube[] = [
  { name: 'Sod', left: [1, 0, 1], right: [0.125, 0, 0.1], membrane: 0.5, time: 0.25 },
  { name: 'two rarefactions', left: [1, -2, 0.4], right: [1, 2, 0.4], membrane: 0.5, time: 0.15 },
  { name: 'blast to the right', left: [1, 0, 1000], right: [1, 0, 0.01], membrane: 0.5, time: 0.012 },
  { name: 'blast to the left', left: [1, 0, 0.01], right: [1, 0, 100], membrane: 0.5, time: 0.035 },
  {
    name: 'colliding streams',
    left: [5.99924, 19.5975, 460.894],
    right: [5.99242, -6.19633, 46.095],
    membrane: 0.4,
    time: 0.035,
  },
];

export interface RunTube {
  readonly network: Network;
  readonly duct: ConservativeDuct;
  /** Position of cell i in the tube's own coordinate. */
  readonly at: (i: number) => number;
}

/** The schemes that keep cell averages. */
export type DuctKind = typeof ConservativeDuct | typeof FiniteVolumeDuct;

/** Marches a tube to its time; `margin` is duct added at each end, so that the ends stay out of it. */
export function runTube(
  tube: ShockTube,
  cells: number,
  margin = 0,
  gamma = 1.4,
  Duct: DuctKind = ConservativeDuct,
): RunTube {
  const gas = GasModel.perfectGas(gamma, 1);
  const length = 1 + 2 * margin;
  const geometry = meshTapers([{ length, diameter: [1, 1] }], cellsFor(length, 1 / cells));
  const duct = new Duct('tube', gas, geometry);
  const at = (i: number): number => duct.centre(i) - margin;
  for (let i = 0; i < duct.cells; i++) {
    const [density, velocity, pressure] = at(i) < tube.membrane ? tube.left : tube.right;
    duct.setCell(i, pressure, pressure / density, velocity);
  }
  const links: readonly Link[] = [
    { kind: 'closed', end: duct.left },
    { kind: 'closed', end: duct.right },
  ];
  const network = new Network([duct], [], links, 0.8);
  network.marchTo(tube.time);
  return { network, duct, at };
}
