/** States of a mesh duct: from cells to nodes, integrals, probes, rest, contacts. Rings: identity, conservation. */

import { describe, expect, test } from 'vitest';
import { GasModel, meshTapers, TextbookDuct } from '../../../solver/index.ts';
import { between as at, bends } from '../../../solver/scheme/textbook/interpolation.ts';
import { AIR, between, fill, probeAt, reservoirOf, straight } from '../../../src/verify/rig/rig.ts';

function mesh(cells: number, gas = AIR): TextbookDuct {
  return new TextbookDuct('duct', gas, meshTapers([{ length: 1, diameter: [0.04, 0.04] }], cells));
}

describe('cells and nodes', () => {
  test('a jump between two cells is one node wide and in its place', () => {
    const duct = mesh(20);
    fill(duct, (x) => ({ pressure: x < 0.5 ? 2e5 : 1e5, temperature: 300 }));
    duct.decode();
    const pressure = Array.from(duct.now.X, (X) => duct.pressureOf(X));
    expect(pressure.slice(0, 10).every((p) => Math.abs(p / 2e5 - 1) < 1e-12)).toBe(true);
    expect(pressure[10]).toBeCloseTo(1.5e5, 6);
    expect(pressure.slice(11).every((p) => Math.abs(p / 1e5 - 1) < 1e-12)).toBe(true);
    // So the mass is right, too.
    const exact = (1.5e5 / (287 * 300)) * duct.geometry.faceArea[0]!;
    expect(Math.abs(duct.mass() / exact - 1)).toBeLessThan(1e-12);
  });

  test('a smooth field comes to the nodes with the fourth power of dx', () => {
    const error = (cells: number): number => {
      const duct = mesh(cells);
      const field = (x: number): number => 1e5 * (1 + 0.3 * Math.sin(2 * x));
      fill(duct, (x) => ({ pressure: field(x), temperature: 300 }));
      duct.decode();
      let most = 0;
      for (let j = 2; j <= cells - 2; j++)
        most = Math.max(most, Math.abs(duct.pressureOf(duct.now.X[j]!) / field(j / cells) - 1));
      return most;
    };
    expect(Math.log2(error(20) / error(40))).toBeGreaterThan(3.7);
  });

  test('setting one cell leaves the nodes of the others', () => {
    const duct = mesh(20);
    fill(duct, (x) => ({ pressure: 1e5 * (1 + x), temperature: 300 + 100 * x, velocity: 10 * x }));
    duct.decode();
    const before = [...duct.now.X];
    duct.setCell(10, 3e5, 400);
    duct.decode();
    const changed = before.map((X, j) => (X === duct.now.X[j] ? -1 : j)).filter((j) => j >= 0);
    expect(changed).toEqual([10, 11]);
  });

  test('too few cells are refused', () => {
    expect(() => mesh(3)).toThrow(RangeError);
  });
});

describe('integrals', () => {
  test('of a cone with a density that falls evenly, to round-off', () => {
    const duct = new TextbookDuct('cone', AIR, meshTapers([{ length: 1, diameter: [0.02, 0.1] }], 40));
    for (let j = 0; j <= 40; j++) duct.setNode(j, 1e5 * (2 - j / 40), 300);
    duct.decode();
    // rho = rho0 (2 - x), F = pi/4 (0.02 + 0.08 x)^2: mean of (2-x) F by hand.
    const [a, b] = [0.02, 0.08];
    const volume = a * a + a * b + (b * b) / 3;
    const moment = (a * a) / 2 + (2 * a * b) / 3 + (b * b) / 4;
    const exact = ((1e5 / (287 * 300)) * Math.PI * (2 * volume - moment)) / 4;
    // Within a cell the area is taken as even about its mean: third order in dx.
    expect(Math.abs(duct.mass() / exact - 1)).toBeLessThan(1e-5);
  });

  test('energy of a moving gas, and its burnt mass', () => {
    const gas = GasModel.charge(1.85, 1);
    const duct = mesh(10, gas);
    for (let j = 0; j <= 10; j++) duct.setNode(j, 1e5, 900, 100, 0.25);
    duct.decode();
    expect(duct.burntMass() / duct.mass()).toBeCloseTo(0.25, 12);
    expect(duct.energyContent() / duct.mass() / (gas.energy(900, 0.25) + 5000)).toBeCloseTo(1, 12);
  });
});

describe('interpolation', () => {
  const of = (f: (x: number) => number): [Float64Array, Float64Array] => {
    const q = Float64Array.from({ length: 11 }, (_, i) => f(i));
    const d = new Float64Array(11);
    bends(q, d, 10);
    return [q, d];
  };

  test('takes a cubic exactly, but in the cells at the ends', () => {
    const f = (x: number): number => 0.1 * (x - 20) ** 3;
    const [q, d] = of(f);
    for (const t of [0.1, 0.5, 0.8]) expect(at(q, d, 4, t)).toBeCloseTo(f(4 + t), 9);
  });

  test('goes over a smooth crest and not over the edge of a jump', () => {
    const [q, d] = of((x) => -((x - 4.5) ** 2));
    expect(at(q, d, 4, 0.5)).toBeCloseTo(0, 12);
    const [step, bend] = of((x) => (x > 4.5 ? 1 : 0));
    for (let i = 0; i < 10; i++)
      for (const t of [0.25, 0.5, 0.75]) {
        expect(at(step, bend, i, t)).toBeGreaterThanOrEqual(0);
        expect(at(step, bend, i, t)).toBeLessThanOrEqual(1);
      }
  });
});

test('hot gas borne along by cold at one pressure leaves pressure and velocity as they are', () => {
  const duct = straight(1, 100, AIR, 'mesh');
  fill(duct, (x) => ({ pressure: 1e5, temperature: x > 0.2 && x < 0.4 ? 1200 : 300, velocity: 50 }));
  const endless = reservoirOf(AIR, 1e5, 300);
  const network = between({ endless }, duct, { endless });
  network.marchTo(0.2e-3);
  duct.decode();
  const { pressure, velocity } = probeAt(duct, 0.5);
  expect(Math.abs(pressure / 1e5 - 1)).toBeLessThan(1e-12);
  expect(Math.abs(velocity / 50 - 1)).toBeLessThan(1e-12);
});

test('a state that is not physical is told with its place', () => {
  const duct = mesh(20);
  fill(duct, () => ({ pressure: 1e5, temperature: 300 }));
  duct.decode();
  duct.now.A[5] = Number.NaN;
  expect(duct.decode()).toBeNaN();
  expect(duct.complaint()).toContain('at 250 mm');
});
