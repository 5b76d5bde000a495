/** What a network holds, over ten thousand steps; and what stays as it is. Ring: conservation and symmetry. */

import { describe, expect, test } from 'vitest';
import { GasModel, type Link, Network, newFlow, newReservoir, setReservoir } from '../../solver/index.ts';
import { closedNetwork } from './closed-network.ts';
import { AIR, closedTube, duct, fill, straight } from './constant-gamma.ts';

describe('a closed network', () => {
  test.each([
    ['two thermally perfect gases', GasModel.charge(1.85, 1.1)],
    ['a perfect gas', GasModel.perfectGas(1.33, 290)],
  ])('of %s keeps mass, composition and energy over 10 000 steps', (_, gas) => {
    const network = closedNetwork(gas);
    const start = [network.mass(), network.burntMass(), network.energyContent()];
    // Energies count from 298 K and may nearly cancel: errors are over the thermal energy m cv T, cv about 800 J/(kg K).
    const scale = [start[0]!, start[0]!, start[0]! * 800 * 600];
    for (let step = 0; step < 10_000; step++) network.step(1);
    const end = [network.mass(), network.burntMass(), network.energyContent()];
    end.forEach((value, k) => void expect(Math.abs(value - start[k]!) / scale[k]!).toBeLessThan(1e-12));
    expect(network.ledger.steps).toBe(10_000);
    expect(network.ledger.massIn).toBe(0);
  });

  test('comes towards one pressure everywhere', () => {
    const network = closedNetwork();
    const spread = (): number => {
      const out = new Float64Array(4);
      const pressures = network.ducts.map((one) => {
        one.probe(0.5 * one.geometry.length, out);
        return out[0]!;
      });
      pressures.push(...network.volumes.map((one) => one.pressure));
      return Math.max(...pressures) / Math.min(...pressures) - 1;
    };
    for (let step = 0; step < 20; step++) network.step(1);
    expect(spread()).toBeGreaterThan(0.5);
    network.marchTo(0.05);
    // Nothing rubs: what is left are waves, spent at the steps and ports only.
    expect(spread()).toBeLessThan(0.2);
  });
});

describe('at rest', () => {
  test('gas in cones and a belly stays at rest, whatever their shape and the gas', () => {
    for (const gas of [AIR, GasModel.air(), GasModel.charge(1.85, 1.1)]) {
      const chamber = duct(
        'chamber',
        [
          { length: 0.3, diameter: [0.038, 0.041] },
          { length: 0.25, diameter: [0.041, 0.11] },
          { length: 0.083, diameter: [0.11, 0.11] },
          { length: 0.21, diameter: [0.11, 0.022] },
          { length: 0.2, diameter: [0.022, 0.022] },
        ],
        173,
        gas,
      );
      fill(chamber, () => ({ pressure: 101325, temperature: 400 }));
      const network = closedTube(chamber);
      network.step(1);
      for (let step = 0; step < 2000; step++) network.step(1);
      const sound = 400;
      for (let i = 0; i < chamber.cells; i++) {
        const k = i + 2;
        expect(Math.abs(chamber.u[k]!) / sound).toBeLessThan(1e-13);
        expect(Math.abs(chamber.p[k]! / 101325 - 1)).toBeLessThan(1e-13);
      }
    }
  });

  test('an open end and a nozzle at the pressure of the air outside let nothing in or out', () => {
    const cone = duct('cone', [{ length: 0.2, diameter: [0.03, 0.06] }], 40);
    fill(cone, () => ({ pressure: 1e5, temperature: 300 }));
    const reservoir = newReservoir();
    setReservoir(reservoir, AIR, 1e5, 300, 0);
    const links: readonly Link[] = [
      { kind: 'atmosphere', end: cone.left, reservoir, share: 0.3, flow: newFlow() },
      { kind: 'atmosphere', end: cone.right, reservoir, share: 1, flow: newFlow() },
    ];
    const network = new Network([cone], [], links, 0.8);
    for (let step = 0; step < 1000; step++) network.step(1);
    for (let i = 0; i < cone.cells; i++) expect(Math.abs(cone.u[i + 2]!)).toBeLessThan(1e-10);
  });
});

describe('symmetry', () => {
  test('a duct turned round gives the mirror image to the last digit', () => {
    const there = straight('there', 1, 0.04, 80);
    const back = straight('back', 1, 0.04, 80);
    const state = (x: number) => ({
      pressure: 1e5 * (1 + 0.8 * Math.exp(-(((x - 0.3) / 0.06) ** 2))),
      temperature: 300 + 100 * x,
      velocity: 30 * x,
    });
    fill(there, state);
    fill(back, (x) => ({ ...state(1 - x), velocity: -30 * (1 - x) }));
    const [a, b] = [closedTube(there), closedTube(back)];
    a.marchTo(4e-3);
    b.marchTo(4e-3);
    for (let i = 0; i < 80; i++)
      expect(there.p[i + 2]! / back.p[81 - i]! - 1, `cell ${i}`).toBeCloseTo(0, 10);
  });

  test('an open system: what it holds follows from what crossed its ends', () => {
    const pipe = straight('pipe', 0.5, 0.04, 100);
    fill(pipe, (x) => ({ pressure: x < 0.2 ? 2.2e5 : 1e5, temperature: x < 0.2 ? 800 : 300 }));
    const reservoir = newReservoir();
    setReservoir(reservoir, AIR, 1e5, 300, 0);
    const links: readonly Link[] = [
      { kind: 'nonreflecting', end: pipe.left, reservoir, incident: () => 1.05e5, flow: newFlow() },
      { kind: 'atmosphere', end: pipe.right, reservoir, share: 1, flow: newFlow() },
    ];
    const network = new Network([pipe], [], links, 0.8);
    const [mass, energy] = [network.mass(), network.energyContent()];
    network.marchTo(10e-3);
    const { massIn, energyIn } = network.ledger;
    expect(Math.abs(massIn)).toBeGreaterThan(0.1 * mass);
    expect(Math.abs(network.mass() - mass - massIn) / mass).toBeLessThan(1e-13);
    expect(Math.abs(network.energyContent() - energy - energyIn) / energy).toBeLessThan(1e-13);
  });
});
