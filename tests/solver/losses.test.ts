/** Friction and wall heat: published correlations, and what a duct makes of them. Ring: identity. */

import { describe, expect, test } from 'vitest';
import {
  colburnCoefficient,
  conductivity,
  darcyFactor,
  keptDarcyFactor,
  pulsatingCoefficient,
  roughnessTerm,
  viscosity,
} from '../../solver/duct/wall-losses.ts';
import { ConservativeDuct, meshTapers } from '../../solver/index.ts';
import { colebrook } from '../exact/friction.ts';
import { expectPrinted, expectRow } from '../verify/exact/digits.ts';
import { AIR, closedTube, fill, straight } from './constant-gamma.ts';

describe('friction factor', () => {
  // Haaland, J. Fluids Eng. 105 (1983) 89 (from memory); recomputed.
  test.each([
    [1e4, 0, '0.030886'],
    [5e4, 0, '0.020713'],
    [1e5, 0, '0.017825'],
    [1e5, 1e-4, '0.018265'],
    [1e5, 1e-3, '0.021966'],
    [1e5, 5e-3, '0.031279'],
    [1e6, 1e-3, '0.019941'],
  ] as const)('at Re %s, roughness %s', (reynolds, roughness, printed) => {
    expectPrinted(darcyFactor(reynolds, roughnessTerm(roughness)), printed);
    // Haaland's own claim: within 2 % of Colebrook.
    expect(
      Math.abs(darcyFactor(reynolds, roughnessTerm(roughness)) / colebrook(reynolds, roughness) - 1),
    ).toBeLessThan(0.02);
  });

  test('laminar below Re 2300, and finite at rest', () => {
    expect(darcyFactor(2000, roughnessTerm(0.01))).toBe(64 / 2000);
    expect(darcyFactor(2301, 0)).toBeGreaterThan(0.04);
    expect(Number.isFinite(darcyFactor(0, 0))).toBe(true);
  });

  test('a factor kept for some steps is that of the flow, and at rest no more than that of the laminar bound', () => {
    expect(keptDarcyFactor(1e5, roughnessTerm(1e-3))).toBe(darcyFactor(1e5, roughnessTerm(1e-3)));
    for (const reynolds of [0, 1, 100, 2299]) expect(keptDarcyFactor(reynolds, 0)).toBe(darcyFactor(2300, 0));
  });
});

describe('transport in air', () => {
  // White, Viscous Fluid Flow, Sutherland's law, from memory; recomputed: viscosity in 1e-5 Pa s, conductivity.
  test.each([
    [300, '1.84592 0.02623'],
    [500, '2.67041 0.04018'],
    [700, '3.33185 0.05166'],
    [900, '3.89590 0.06155'],
    [1000, '4.15201 0.06605'],
    [1200, '4.62493 0.07437'],
  ] as const)('at %s K', (T, row) => {
    expectRow([1e5 * viscosity(T), conductivity(T)], row);
  });
});

describe('convection', () => {
  // Worked case: 38 mm, 150 m/s, 1.2 bar, 850 K, cp 1150 J/(kg K), friction after Blasius f = 0.004787, conductivity
  // 0.05991 W/(m K) (Blair 1996, from memory), recomputed.
  const density = 1.2e5 / (287 * 850);
  const reynolds = (density * 150 * 0.038) / viscosity(850);

  test('worked case', () => {
    expectPrinted(1e5 * viscosity(850), '3.7620');
    expectPrinted(reynolds, '74532');
    // Colburn's analogy; Nu = 0.07 Re^0.75 (Depcik & Assanis, SAE 2002-01-0372).
    const prandtl = (viscosity(850) * 1150) / 0.05991;
    expectPrinted(prandtl, '0.7221');
    expectPrinted(colburnCoefficient(0.0791 * reynolds ** -0.25, density * 150, 1150, prandtl), '252.3');
    expectPrinted(pulsatingCoefficient(reynolds, 0.038, 0.05991), '497.8');
  });
});

describe('a duct with losses', () => {
  const made = (heat: 'none' | 'colburn' | 'pulsating', friction: boolean): ConservativeDuct => {
    const geometry = meshTapers([{ length: 1, diameter: [0.038, 0.038] }], 50);
    const pipe = new ConservativeDuct('pipe', AIR, geometry, { friction, heat, roughness: 38e-6 });
    fill(pipe, () => ({ pressure: 1.2e5, temperature: 850, velocity: 150 }));
    pipe.wallTemperature.fill(600);
    pipe.decode();
    pipe.refreshLosses();
    return pipe;
  };

  test('takes its coefficients from the flow in each cell', () => {
    const pipe = made('pulsating', true);
    const reynolds = ((1.2e5 / (287 * 850)) * 150 * 0.038) / viscosity(850);
    const G = pipe.frictionOverD[25]! * 150 * 150;
    expect(G).toBeCloseTo((darcyFactor(reynolds, roughnessTerm(1e-3)) / 0.038) * 0.5 * 150 * 150, 6);
    const h = pulsatingCoefficient(reynolds, 0.038, conductivity(850));
    expect(pipe.heatOverD[25]).toBeCloseTo((4 * h) / 0.038, 6);
  });

  test('slows its stream by G and keeps the energy: friction turns into heat', () => {
    const pipe = made('none', true);
    const network = closedTube(pipe);
    const energy = network.energyContent();
    const G = pipe.frictionOverD[25]! * 150 * 150;
    // In the middle nothing has come from the ends yet: du/dt = -k u^2, so (u0 - u)/t = k u0 u. The factor itself changes
    // a little as the gas warms.
    network.marchTo(0.4e-3);
    const u = pipe.u[27]!;
    expect(150 - u).toBeGreaterThan(1);
    expect((150 - u) / 0.4e-3 / ((G * u) / 150)).toBeCloseTo(1, 2);
    expect(Math.abs(network.energyContent() / energy - 1)).toBeLessThan(1e-13);
  });

  test('does not brake a shock that runs into gas at rest by what that gas had for a factor', () => {
    const pipe = made('none', true);
    fill(pipe, (x) => ({ pressure: x < 0.3 ? 3e5 : 1e5, temperature: 300 }));
    const smooth = straight('smooth', 1, 0.038, 50);
    fill(smooth, (x) => ({ pressure: x < 0.3 ? 3e5 : 1e5, temperature: 300 }));
    closedTube(pipe).marchTo(1e-3);
    closedTube(smooth).marchTo(1e-3);
    // Between the waves: 1 ms at some 150 m/s and a factor of 0.02 cost G t/u = 4f/(2D) u t, some 4 %.
    for (let k = 22; k < 32; k++) {
      const slowed = 1 - pipe.u[k]! / smooth.u[k]!;
      expect(slowed).toBeGreaterThan(0.002);
      expect(slowed).toBeLessThan(0.08);
    }
  });

  test('gives its walls what the books say', () => {
    const pipe = made('colburn', true);
    const network = closedTube(pipe);
    const energy = network.energyContent();
    network.marchTo(2e-3);
    expect(network.ledger.ductHeat).toBeLessThan(-1);
    expect(network.energyContent() - energy).toBeCloseTo(network.ledger.ductHeat, 9);
  });
});
