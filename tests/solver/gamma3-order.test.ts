/**
 * The closed tube of a gas with gamma = 3, where u + a and u - a each obey Burgers' equation (derived here): smooth waves
 * that meet, and two closed ends. Ring: observed order.
 */

import { expect, test } from 'vitest';
import { GasModel } from '../../solver/index.ts';
import { gamma3Tube } from '../../src/verify/exact/gamma3-tube.ts';
import { closedTube, straight } from './constant-gamma.ts';

const EPS = 0.2;
const GAS = GasModel.perfectGas(3, 1);

// Four-point Gauss-Legendre: cell averages of the exact solution, so that only the scheme's error is seen.
const NODES = [
  [-0.8611363115940526, 0.34785484513745385],
  [-0.33998104358485626, 0.6521451548625461],
  [0.33998104358485626, 0.6521451548625461],
  [0.8611363115940526, 0.34785484513745385],
] as const;

/** Mean of density, momentum and energy over a cell; rho = a and p = a^3/3 in units of the gas at rest. */
function average(from: number, to: number, t: number): { rho: number; mom: number; energy: number } {
  let rho = 0;
  let mom = 0;
  let energy = 0;
  for (const [node, weight] of NODES) {
    const x = 0.5 * (from + to) + 0.5 * (to - from) * node;
    const { u, a } = point(x, t);
    rho += 0.5 * weight * a;
    mom += 0.5 * weight * a * u;
    energy += 0.5 * weight * (a ** 3 / 6 + 0.5 * a * u * u);
  }
  return { rho, mom, energy };
}

function point(x: number, t: number): { u: number; a: number } {
  const state = gamma3Tube(x, t, EPS);
  return { u: state.velocity, a: state.soundSpeed };
}

function run(cells: number): { error: number; mass: number; energy: number } {
  const tube = straight('tube', 1, 1, cells, GAS);
  const { dx } = tube;
  for (let i = 0; i < cells; i++) {
    const { rho, mom, energy } = average(i * dx, (i + 1) * dx, 0);
    const u = mom / rho;
    const p = 2 * (energy - 0.5 * rho * u * u);
    tube.setCell(i, p, p / rho, u);
  }
  const network = closedTube(tube);
  const before = { mass: network.mass(), energy: network.energyContent() };
  network.marchTo(1);
  let error = 0;
  for (let i = 0; i < cells; i++)
    error += Math.abs(tube.now.density[i]! - average(i * dx, (i + 1) * dx, 1).rho) / cells;
  return {
    error,
    mass: network.mass() / before.mass - 1,
    energy: network.energyContent() / before.energy - 1,
  };
}

test('the error falls with the square of the cell from 50 to 400 cells, mass and energy are kept', () => {
  const coarse = run(50);
  const fine = run(400);
  const order = Math.log2(coarse.error / fine.error) / 3;
  expect(order).toBeGreaterThan(1.9);
  // Twice what the scheme leaves; the textbook mesh method with linear interpolation leaves 6.3e-4, with cubic 3.9e-8.
  expect(fine.error).toBeLessThan(7e-7);
  for (const { mass, energy } of [coarse, fine]) {
    expect(Math.abs(mass)).toBeLessThan(1e-12);
    expect(Math.abs(energy)).toBeLessThan(1e-12);
  }
});
