/**
 * What must hold to round-off: gas at rest stays at rest in any shape of duct; mass and energy are kept through ten thousand
 * steps with shocks, contacts and two gases; and what the mesh method of characteristics loses once a wave has steepened.
 */

import {
  ConservativeDuct,
  type DuctGeometry,
  GasModel,
  type MarchingDuct,
  meshTapers,
  newDuct,
  type Scheme,
  type Taper,
} from '../../../solver/index.ts';
import type { Measure, Problem } from '../rig/problem.ts';
import { AIR, between, fill, probeAt, straight } from '../rig/rig.ts';

/** Cone, belly, steep cone: 1 m. */
function shapes(cells: number): DuctGeometry {
  return meshTapers(
    [
      { length: 0.45, diameter: [0.036, 0.12] },
      { length: 0.15, diameter: [0.12, 0.12] },
      { length: 0.25, diameter: [0.12, 0.02] },
      { length: 0.15, diameter: [0.02, 0.02] },
    ],
    cells,
  );
}

/** Largest velocity over the sound speed after 2000 steps at one pressure, with temperature and gas changing along the duct. */
function atRest(scheme: Scheme, cells: number): Measure {
  const duct = newDuct(scheme, 'rest', GasModel.charge(1.9, 1.1), shapes(cells));
  for (let i = 0; i < cells; i++) duct.setCell(i, 1e5, 300 + (800 * i) / cells, 0, i / cells);
  const network = between('closed', duct, 'closed');
  for (let step = 0; step < 2000; step++) network.step(1);
  duct.decode();
  let fastest = 0;
  for (let i = 0; i < cells; i++)
    fastest = Math.max(fastest, Math.abs(probeAt(duct, (i + 0.5) * duct.geometry.dx).velocity) / 343);
  return { error: fastest };
}

/** Relative change of mass, burnt mass and energy over ten thousand steps in a closed duct of cones. */
function kept(scheme: Scheme, cells: number): Measure {
  const duct = newDuct(scheme, 'closed', GasModel.charge(1.9, 1.1), shapes(cells));
  for (let i = 0; i < cells; i++) {
    const burst = i < 0.15 * cells;
    duct.setCell(i, burst ? 4e5 : 1e5, burst ? 1300 : 400, 0, burst ? 1 : 0);
  }
  const before = [duct.mass(), duct.burntMass(), duct.energyContent()];
  const network = between('closed', duct, 'closed');
  for (let step = 0; step < 10_000; step++) network.step(1);
  const after = [duct.mass(), duct.burntMass(), duct.energyContent()];
  return { error: Math.max(...after.map((value, k) => Math.abs(value / before[k]! - 1))) };
}

/** Change of mass of a tall pulse in a closed pipe after five transits, when it has long been a shock [%]. */
function lost(scheme: Scheme, cells: number): number {
  const duct: MarchingDuct = straight(1, cells, AIR, scheme);
  fill(duct, (x) => {
    const ratio = 1 + 0.5 * Math.exp(-0.5 * ((x - 0.5) / 0.08) ** 2);
    return { pressure: 1e5 * ratio, temperature: 300 * ratio ** (2 / 7) };
  });
  duct.decode();
  const before = duct.mass();
  between('closed', duct, 'closed').marchTo(5 / Math.sqrt(1.4 * 287 * 300));
  duct.decode();
  return 100 * Math.abs(duct.mass() / before - 1);
}

/** A burst in a duct and in the mirror image of that duct: cell averages of density and momentum. */
function mirrored(cells: number): Measure {
  const [one, other] = [1, -1].map((way) => {
    const tapers: Taper[] = [
      { length: 0.5, diameter: [0.04, 0.1] },
      { length: 0.5, diameter: [0.1, 0.03] },
    ];
    const own = tapers.map(
      ({ length, diameter: [a, b] }): Taper => ({ length, diameter: way > 0 ? [a, b] : [b, a] }),
    );
    if (way < 0) own.reverse();
    const duct = new ConservativeDuct('mirror', AIR, meshTapers(own, cells));
    fill(duct, (x) => {
      const place = way > 0 ? x : 1 - x;
      return place < 0.3 ? { pressure: 3e5, temperature: 900 } : { pressure: 1e5, temperature: 300 };
    });
    between('closed', duct, 'closed').marchTo(2e-3);
    return duct.now;
  }) as [ConservativeDuct['now'], ConservativeDuct['now']];
  let error = 0;
  for (let i = 0; i < cells; i++) {
    const k = cells - 1 - i;
    const density = other.density[k]!;
    error = Math.max(
      error,
      Math.abs(one.density[i]! / density - 1),
      Math.abs(one.momentum[i]! + other.momentum[k]!) / (343 * density),
    );
  }
  return { error };
}

const exactly = { ring: 'conservation', source: 'balances of mass and energy', judged: 0 } as const;

export const balanceProblems: readonly Problem[] = [
  {
    ...exactly,
    name: 'gas at rest in cones',
    quantity: 'velocity over sound speed [-]',
    cells: [100],
    bound: 1e-13,
    run: (n) => atRest('conservative', n),
  },
  {
    ...exactly,
    name: 'volumes: gas at rest',
    quantity: 'velocity over sound speed [-]',
    cells: [100],
    bound: 1e-13,
    run: (n) => atRest('finite-volume', n),
  },
  {
    ...exactly,
    name: 'mesh: gas at rest',
    quantity: 'velocity over sound speed [-]',
    cells: [100],
    bound: 1e-13,
    run: (n) => atRest('mesh', n),
  },
  {
    ...exactly,
    name: 'books over 10 000 steps',
    quantity: 'mass, burnt mass and energy, relative change [-]',
    cells: [200],
    bound: 1e-12,
    run: (n) => kept('conservative', n),
  },
  {
    ...exactly,
    name: 'volumes: 10 000 steps',
    quantity: 'mass, burnt mass and energy, relative change [-]',
    cells: [200],
    bound: 1e-12,
    run: (n) => kept('finite-volume', n),
  },
  {
    ...exactly,
    name: 'mirror image',
    source: 'symmetry of the equations',
    quantity: 'density, velocity over sound speed [-]',
    cells: [200],
    bound: 1e-11,
    run: mirrored,
  },
  {
    ...exactly,
    name: 'mass of a shocked pulse',
    quantity: 'mass after five transits of the tube, relative change [%]',
    cells: [100, 200, 400],
    judged: 2,
    bound: 1e-10,
    run: (n) => ({ error: lost('conservative', n) }),
  },
  {
    name: 'mesh: mass, shocked pulse',
    ring: 'regression',
    source: 'a trial program of the mesh method left 0.6 % for half this pulse at a wall',
    quantity: 'mass after five transits of the tube, relative change [%]',
    cells: [100, 200, 400],
    judged: 2,
    bound: 1.5,
    note: 'No refinement removes it: across a shock the method holds u ± a and the entropy instead of mass and energy',
    run: (n) => ({ error: lost('mesh', n) }),
  },
];
