/** Wall friction and heat in a mesh duct. Rings: identity, conservation. */

import { describe, expect, test } from 'vitest';
import { keptDarcyFactor, roughnessTerm, viscosity } from '../../../solver/duct/wall-losses.ts';
import { GasModel, meshTapers, newDuct, type Scheme, TextbookDuct } from '../../../solver/index.ts';
import { AIR, between, fill, probeAt, reservoirOf } from '../../../src/verify/rig/rig.ts';

const GEOMETRY = meshTapers([{ length: 1, diameter: [0.04, 0.04] }], 50);

describe('coefficients at the nodes', () => {
  test('friction: Fanning factor twice over the diameter, from Haaland at the local Reynolds number', () => {
    const duct = new TextbookDuct('pipe', AIR, GEOMETRY, { friction: true, heat: 'none', roughness: 2e-5 });
    fill(duct, () => ({ pressure: 1.2e5, temperature: 850, velocity: 150 }));
    duct.decode();
    duct.refreshLosses();
    const density = 1.2e5 / (287 * 850);
    const darcy = keptDarcyFactor((density * 150 * 0.04) / viscosity(850), roughnessTerm(2e-5 / 0.04));
    // G = (4f/D) u|u|/2 with 4f Darcy's factor.
    for (const coefficient of duct.nodeFriction) expect(coefficient / (darcy / 2 / 0.04)).toBeCloseTo(1, 12);
    expect(duct.lossy).toBe(true);
  });

  test('given for the cells: the nodes take the means of both sides', () => {
    const duct = new TextbookDuct('pipe', AIR, GEOMETRY);
    duct.frictionOverD.forEach((_, i) => {
      duct.frictionOverD[i] = i;
    });
    duct.refreshLosses();
    expect([duct.nodeFriction[0], duct.nodeFriction[7], duct.nodeFriction[50]]).toEqual([0, 6.5, 49]);
  });

  test('without losses nothing is done', () => {
    const duct = new TextbookDuct('pipe', AIR, GEOMETRY);
    duct.refreshLosses();
    expect(duct.lossy).toBe(false);
  });
});

test('heat from the walls is what the gas gains in a closed pipe at rest', () => {
  const duct = new TextbookDuct('pipe', AIR, GEOMETRY);
  fill(duct, () => ({ pressure: 1e5, temperature: 400 }));
  duct.heatOverD.fill(5e3);
  duct.wallTemperature.fill(700);
  const network = between('closed', duct, 'closed');
  duct.decode();
  const before = duct.energyContent();
  network.marchTo(5e-3);
  duct.decode();
  const gained = duct.energyContent() - before;
  expect(gained).toBeGreaterThan(0);
  // Heat is booked with the state at the start of each step: first order in time.
  expect(Math.abs(network.ledger.ductHeat / gained - 1)).toBeLessThan(2e-3);
  // q rho = h (Tw - T), rho c_v dT/dt = q rho: the gas comes towards the wall exponentially.
  const rate = 5e3 / ((1e5 / (287 * 400)) * 2.5 * 287);
  expect(probeAt(duct, 0.5).temperature).toBeCloseTo(700 - 300 * Math.exp(-rate * 5e-3), 1);
});

describe('a hot stream through a rough, cooled pipe of real gas', () => {
  const run = (scheme: Scheme, cells: number) => {
    const gas = GasModel.charge(1.85, 1.1);
    const geometry = meshTapers([{ length: 1, diameter: [0.04, 0.03] }], cells);
    const duct = newDuct(scheme, 'pipe', gas, geometry, {
      friction: true,
      heat: 'pulsating',
      roughness: 5e-5,
    });
    for (let i = 0; i < cells; i++) duct.setCell(i, 1.2e5, 1000, 80, 1);
    duct.wallTemperature.fill(550);
    const open = reservoirOf(gas, 1.3e5, 1100, 1);
    const outside = reservoirOf(gas, 1e5, 300, 0);
    const network = between({ open }, duct, { open: outside });
    network.marchTo(0.03);
    duct.decode();
    return probeAt(duct, 0.8);
  };

  test('both schemes come to the same', () => {
    const mesh = run('mesh', 50);
    const conservative = run('conservative', 50);
    expect(Math.abs(mesh.pressure / conservative.pressure - 1)).toBeLessThan(5e-4);
    expect(Math.abs(mesh.velocity / conservative.velocity - 1)).toBeLessThan(2e-3);
    expect(Math.abs(mesh.temperature / conservative.temperature - 1)).toBeLessThan(5e-4);
  });
});
