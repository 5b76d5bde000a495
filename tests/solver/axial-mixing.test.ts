/**
 * Axial mixing in ducts: the growth of the second moment of a diffusion with drift (exact), what is kept, and what is left
 * untouched. Rings: exact solution, conservation, identity.
 */

import { describe, expect, test } from 'vitest';
import { darcyFactor, viscosity } from '../../solver/duct/wall-losses.ts';
import { ConservativeDuct, GasModel, type Link, meshTapers, Network } from '../../solver/index.ts';
import { AxialMixing } from '../../solver/network/axial-mixing.ts';
import { closedNetwork } from './closed-network.ts';

const AMBIENT = 1e5;
const COOL = 300;
const START = 2.8;
/** Half the window in which the slug is measured, and the slug's width [m]. */
const REACH = 0.6;
const WIDTH = 0.1;
const TIME = 5e-3;

/** Second central moment over x of how much warmer than `COOL` the gas is around a place [m2]. */
function spread(duct: ConservativeDuct, about: number): number {
  duct.decode();
  const { T, offset } = duct.fields();
  const from = Math.round((about - REACH) / duct.dx);
  const to = Math.round((about + REACH) / duct.dx);
  const moments = new Float64Array(3);
  for (let i = from; i < to; i++) {
    const warm = (T[i + offset] as number) - COOL;
    const x = duct.centre(i) - about;
    moments.set([warm, warm * x, warm * x * x].map((part, k) => part + (moments[k] as number)));
  }
  const [zeroth, first, second] = Array.from(moments) as [number, number, number];
  return second / zeroth - (first / zeroth) ** 2;
}

/** How much the spread of a slug 10 K warmer grows in a pipe that streams; its ends are too far for their waves to come. */
function growth(diameter: number, speed: number, cell: number, mixing: number): number {
  const tapers = [{ length: 7, diameter: [diameter, diameter] as const }];
  const duct = new ConservativeDuct('pipe', GasModel.air(), meshTapers(tapers, Math.round(7 / cell)));
  for (let i = 0; i < duct.cells; i++) {
    const x = (duct.centre(i) - START) / WIDTH;
    duct.setCell(i, AMBIENT, COOL + 10 * Math.exp(-x * x), speed, 0);
  }
  const ends: Link[] = [
    { kind: 'closed', end: duct.left },
    { kind: 'closed', end: duct.right },
  ];
  const network = new Network([duct], [], ends, 0.9, mixing);
  const before = spread(duct, START);
  network.marchTo(TIME);
  return spread(duct, START + speed * TIME) - before;
}

describe('a warm slug in a stream', () => {
  // Moments of a diffusion with drift: the second grows by 2 K t (exact), K after Taylor 1954.
  test.each([
    [0.04, 100, 0.005, 0.02],
    [0.08, 60, 0.005, 0.02],
    [0.04, 100, 0.002, 0.005],
    [0.08, 60, 0.002, 0.005],
  ])(
    'spreads by 2 K t in a pipe of %s m at %s m/s on cells of %s m, within %s',
    (diameter, speed, cell, bound) => {
      const reynolds = ((AMBIENT / (287.05 * COOL)) * speed * diameter) / viscosity(COOL);
      const K = 10.1 * 0.5 * diameter * speed * Math.sqrt(darcyFactor(reynolds, 0) / 8);
      expect(Math.abs(growth(diameter, speed, cell, 1) / (2 * K * TIME) - 1)).toBeLessThan(bound);
    },
  );

  test('spreads in proportion to the factor, and hardly without', () => {
    const one = growth(0.04, 100, 0.01, 1);
    expect(growth(0.04, 100, 0.01, 3) / one).toBeCloseTo(3, 1);
    expect(Math.abs(growth(0.04, 100, 0.01, 0))).toBeLessThan(1e-3 * one);
  });
});

describe('across a shock', () => {
  // Cold gas that has been blown down to a twentieth of an atmosphere, hot gas behind the shock that it runs into: taken at the mean
  // of both pressures the cold cell would be some ten times as dense as it is, and would give more than it holds.
  test.each([1.5, 2, 2.5, 3, 5, 20, 60])(
    'of ratio %s no cell gives more gas or heat than it holds',
    (ratio) => {
      const tapers = [{ length: 0.12, diameter: [0.03, 0.03] as const }];
      const duct = new ConservativeDuct('pipe', GasModel.air(), meshTapers(tapers, 8));
      for (let i = 0; i < duct.cells; i++) {
        if (i < 4) duct.setCell(i, 5e3, 160, 1000, 0);
        else duct.setCell(i, ratio * 5e3, 600, 100, 0);
      }
      duct.decode();
      const before = [duct.mass(), duct.energyContent()];
      const mixing = new AxialMixing([duct], [], 3);
      for (const time of [1e-5, 1e-4, 1e-3, 1]) {
        mixing.prepare(Float64Array.of(0, time));
        mixing.apply();
        const { density, momentum, energy } = duct.conserved();
        for (let i = 0; i < duct.cells; i++) {
          const [r, m, e] = [density, momentum, energy].map((of) => of[i] as number) as [
            number,
            number,
            number,
          ];
          expect(r, `density of cell ${i} after ${time} s`).toBeGreaterThan(0);
          const coldest = GasModel.air().energy(100.5, 0);
          expect(e / r - 0.5 * (m / r) ** 2, `energy of cell ${i} after ${time} s`).toBeGreaterThan(coldest);
        }
        duct.decode();
      }
      expect(duct.mass() / (before[0] as number)).toBeCloseTo(1, 12);
      expect(duct.energyContent() / (before[1] as number)).toBeCloseTo(1, 12);
    },
  );
});

describe('what is mixed', () => {
  test('is kept: mass, burnt mass and energy over 10 000 steps, across a step and a junction', () => {
    const network = closedNetwork(undefined, 1);
    const held = (): number[] => [network.mass(), network.burntMass(), network.energyContent()];
    const before = held();
    for (let step = 0; step < 10_000; step++) network.step(1);
    held().forEach((now, k) => {
      expect(Math.abs(now / (before[k] as number) - 1)).toBeLessThan(1e-12);
    });
  });

  test('mixes across a link between ducts as within one', () => {
    const gas = GasModel.charge(1.85, 1);
    const fill = (duct: ConservativeDuct, from: number): void => {
      for (let i = 0; i < duct.cells; i++)
        duct.setCell(i, AMBIENT, 500, 80, from + duct.centre(i) < 0.5 ? 0 : 1);
    };
    const round = [0.04, 0.04] as const;
    const burntAt = (ducts: readonly ConservativeDuct[], links: readonly Link[]): number[] => {
      const network = new Network(ducts, [], links, 0.8, 3);
      network.marchTo(4e-4);
      for (const duct of ducts) duct.decode();
      return ducts.flatMap((duct) => Array.from(duct.fields().y.slice(2, 2 + duct.cells)));
    };
    const whole = new ConservativeDuct('whole', gas, meshTapers([{ length: 1, diameter: round }], 200));
    fill(whole, 0);
    const left = new ConservativeDuct('left', gas, meshTapers([{ length: 0.5, diameter: round }], 100));
    const right = new ConservativeDuct('right', gas, meshTapers([{ length: 0.5, diameter: round }], 100));
    fill(left, 0);
    fill(right, 0.5);
    const one = burntAt(
      [whole],
      [
        { kind: 'closed', end: whole.left },
        { kind: 'closed', end: whole.right },
      ],
    );
    const two = burntAt(
      [left, right],
      [
        { kind: 'closed', end: left.left },
        { kind: 'step', first: left.right, second: right.left, contraction: 1 },
        { kind: 'closed', end: right.right },
      ],
    );
    // The link itself hands on its stream a little more sharply or bluntly than a face does.
    one.forEach((burnt, i) => {
      expect(Math.abs((two[i] as number) - burnt)).toBeLessThan(0.02);
    });
    expect(one[109]).toBeGreaterThan(0.1);
    expect(one[109]).toBeLessThan(0.9);
  });
});

test('a pipe of one gas and temperature is left as it is, to the last bit', () => {
  const state = (mixing: number): Float64Array => {
    const duct = new ConservativeDuct(
      'pipe',
      GasModel.air(),
      meshTapers([{ length: 1, diameter: [0.04, 0.04] }], 100),
    );
    for (let i = 0; i < 100; i++) duct.setCell(i, AMBIENT, COOL, 50, 0);
    duct.decode();
    const ends: Link[] = [
      { kind: 'closed', end: duct.left },
      { kind: 'closed', end: duct.right },
    ];
    const network = new Network([duct], [], ends, 0.8, mixing);
    network.marchTo(3e-4);
    // Far from the ends: what they sent has not come here, nor what the solution of a diffusion spreads ahead of it.
    return duct.now.energy.slice(42, 58);
  };
  expect(state(1)).toEqual(state(0));
});
