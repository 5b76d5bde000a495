/**
 * Shock tubes in the sizes of an engine: a membrane bursts at once over the full bore. The star state is read in the middle
 * between rarefaction and contact and between contact and shock.
 */

import { GasModel, type Scheme } from '../../../solver/index.ts';
import { type GasState, sampleRiemann, solveRiemann } from '../exact/riemann.ts';
import type { Measure, Problem } from '../rig/problem.ts';
import { between, byScheme, fill, probeAt, straight } from '../rig/rig.ts';

interface Tube {
  readonly name: string;
  readonly gamma: number;
  readonly gasConstant: number;
  /** Pressure [Pa] and temperature [K]. */
  readonly left: readonly [number, number];
  readonly right: readonly [number, number];
}

const TUBES: readonly Tube[] = [
  {
    name: 'shock tube 1.5 : 1 bar',
    gamma: 1.4,
    gasConstant: 287,
    left: [1.5e5, 293],
    right: [1e5, 293],
  },
  {
    name: 'shock tube 2 : 1 bar',
    gamma: 1.4,
    gasConstant: 287,
    left: [2e5, 293],
    right: [1e5, 293],
  },
  {
    name: 'shock tube 5 : 1 bar, hot',
    gamma: 1.33,
    gasConstant: 290,
    left: [5e5, 1300],
    right: [1.013e5, 700],
  },
];

function run(tube: Tube, scheme: Scheme, cells: number): Measure {
  const { gamma, gasConstant } = tube;
  const state = ([pressure, temperature]: readonly [number, number]): GasState => ({
    gamma,
    density: pressure / (gasConstant * temperature),
    velocity: 0,
    pressure,
  });
  const exact = solveRiemann(state(tube.left), state(tube.right));
  // The front reaches 0.45 m of the 0.5 m on its side.
  const time = 0.45 / Math.max(exact.right.head, -exact.left.head);
  const duct = straight(1, cells, GasModel.perfectGas(gamma, gasConstant), scheme);
  fill(duct, (x) => {
    const [pressure, temperature] = x < 0.5 ? tube.left : tube.right;
    return { pressure, temperature };
  });
  between('closed', duct, 'closed').marchTo(time);
  duct.decode();
  let error = 0;
  for (const [one, other] of [
    [exact.left.tail, exact.velocity],
    [exact.velocity, exact.right.head],
  ] as const) {
    const speed = 0.5 * (one + other);
    const truth = sampleRiemann(exact, speed);
    const got = probeAt(duct, 0.5 + speed * time);
    const temperature = truth.pressure / (gasConstant * truth.density);
    error = Math.max(
      error,
      Math.abs(got.pressure / truth.pressure - 1),
      Math.abs(got.velocity / truth.velocity - 1),
      Math.abs(got.temperature / temperature - 1),
    );
  }
  const x = Array.from({ length: cells }, (_, i) => (i + 0.5) / cells);
  return {
    error: 100 * error,
    comparison: {
      title: `Shock tube, ${(1e-5 * tube.left[0]).toFixed(1)} bar against ${(1e-5 * tube.right[0]).toFixed(1)} bar${byScheme(scheme)}`,
      read: 'From left to right: the rarefaction, the contact, the shock.',
      xName: 'position [m]',
      yName: 'density [kg/m³]',
      computed: { x, y: x.map((place) => probeAt(duct, place).density) },
      exact: { x, y: x.map((place) => sampleRiemann(exact, (place - 0.5) / time).density) },
    },
  };
}

const about = {
  ring: 'exact solution',
  source: 'Toro, Riemann Solvers and Numerical Methods, ch. 4',
  quantity: 'star pressure, velocity and temperatures [%]',
  cells: [100, 200, 400],
  judged: 1,
  bound: 0.3,
} as const;

export const riemannProblems: readonly Problem[] = [
  ...TUBES.map((tube) => ({
    ...about,
    name: tube.name,
    run: (cells: number) => run(tube, 'conservative', cells),
  })),
  ...TUBES.slice(1).map((tube) => ({
    ...about,
    name: `volumes: ${tube.name.slice('shock '.length)}`,
    run: (cells: number) => run(tube, 'finite-volume', cells),
  })),
];
