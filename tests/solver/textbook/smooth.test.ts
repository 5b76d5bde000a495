/**
 * The mesh method of characteristics: its order in smooth flow, and the mass that it loses once a wave has become a shock.
 * Rings: observed order, conservation.
 */

import { describe, expect, test } from 'vitest';
import { GasModel, meshTapers, TextbookDuct } from '../../../solver/index.ts';
import { gamma3Tube } from '../../../src/verify/exact/gamma3-tube.ts';
import { AIR, between } from '../../../src/verify/rig/rig.ts';

const EPS = 0.2;

/** The closed tube of a gas with gamma = 3 at time 1: mean error of the sound speed, change of mass and energy. */
function gamma3(cells: number) {
  const geometry = meshTapers([{ length: 1, diameter: [1, 1] }], cells);
  const duct = new TextbookDuct('tube', GasModel.perfectGas(3, 1), geometry);
  for (let j = 0; j <= cells; j++) {
    const { pressure, soundSpeed, velocity } = gamma3Tube(j / cells, 0, EPS);
    duct.setNode(j, pressure, soundSpeed ** 2 / 3, velocity);
  }
  duct.decode();
  const before = { mass: duct.mass(), energy: duct.energyContent() };
  between('closed', duct, 'closed', 0.8).marchTo(1);
  duct.decode();
  let error = 0;
  for (let j = 0; j <= cells; j++) {
    const weight = j === 0 || j === cells ? 0.5 : 1;
    const got = Math.sqrt(3 * duct.T[j]!);
    error += (weight * Math.abs(got - gamma3Tube(j / cells, 1, EPS).soundSpeed)) / cells;
  }
  return {
    error,
    mass: duct.mass() / before.mass - 1,
    energy: duct.energyContent() / before.energy - 1,
    u: duct.now.u,
  };
}

describe('smooth waves in a tube of gamma 3', () => {
  // A separate trial program with cubic feet left these errors and mass errors (derived here).
  const TRIAL = [
    { cells: 25, error: 1.23e-4, mass: 7.4e-6 },
    { cells: 50, error: 1.77e-5, mass: 9.4e-7 },
    { cells: 100, error: 2.39e-6, mass: 1.2e-7 },
    { cells: 200, error: 3.06e-7, mass: 1.5e-8 },
  ];

  test.each(TRIAL)('$cells cells: as good as a trial program', ({ cells, error, mass }) => {
    const run = gamma3(cells);
    expect(run.error).toBeLessThan(1.15 * error);
    expect(Math.abs(run.mass)).toBeLessThan(mass);
    // Nothing passes the walls.
    expect([run.u[0], run.u[cells]]).toEqual([0, 0]);
  });

  test('third order in the state, the mass and the energy', () => {
    const coarse = gamma3(50);
    const fine = gamma3(200);
    for (const key of ['error', 'mass', 'energy'] as const) {
      const order = Math.log2(Math.abs(coarse[key] / fine[key])) / 2;
      expect(order, key).toBeGreaterThan(2.7);
      expect(order, key).toBeLessThan(3.3);
    }
  });
});

/** Change of mass of a tall pulse in a closed duct after a number of transits. */
function massGain(outlet: number, cells: number, transits: number): number {
  const geometry = meshTapers([{ length: 1, diameter: [0.04, outlet] }], cells);
  const duct = new TextbookDuct('duct', AIR, geometry);
  for (let j = 0; j <= cells; j++) {
    const ratio = 1 + 0.5 * Math.exp(-0.5 * (j / cells / 0.08) ** 2);
    duct.setNode(j, 1e5 * ratio, 300 * ratio ** (2 / 7));
  }
  duct.decode();
  const before = duct.mass();
  between('closed', duct, 'closed').marchTo(transits / Math.sqrt(1.4 * 287 * 300));
  duct.decode();
  return duct.mass() / before - 1;
}

describe('mass of a pulse of 1.5 p0', () => {
  test.each([
    ['straight', 0.04],
    ['a cone', 0.12],
  ] as const)('%s: smooth, the error goes with the mesh', (_, outlet) => {
    expect(Math.abs(massGain(outlet, 50, 0.3))).toBeLessThan(5e-5);
    expect(Math.abs(massGain(outlet, 200, 0.3))).toBeLessThan(3e-6);
  });

  // A trial program left 0.586 % and, for a pulse elsewhere in the cone, 0.36 %, whatever the mesh (derived here): the
  // isentropic relations across a shock keep neither mass nor energy.
  test.each([
    ['straight', 0.04, 0.0045, 0.0075],
    ['a cone', 0.12, 0.001, 0.006],
  ] as const)('%s: shocked, about half a percent stays however fine the mesh', (_, outlet, least, most) => {
    const coarse = massGain(outlet, 200, 5);
    const fine = massGain(outlet, 400, 5);
    for (const gain of [coarse, fine]) {
      expect(gain).toBeGreaterThan(least);
      expect(gain).toBeLessThan(most);
    }
    expect(Math.abs(fine / coarse - 1)).toBeLessThan(0.1);
  });
});
