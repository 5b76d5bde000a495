/**
 * Ring: identity. The two-lane kernel against the plain one, its readable original: each step of a march is taken by both from
 * the same state. They add and multiply the same numbers in another order, so that they agree to round-off; 1e-12 of the
 * scale of each quantity leaves room for what differences of nearly equal numbers lose (measured: 6e-13 at most).
 */

import { existsSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import type { WallLosses } from '../../solver/duct/wall-losses.ts';
import {
  ANSWER,
  ARRIVE,
  ConservativeDuct,
  cellsFor,
  GasModel,
  type Link,
  meshTapers,
  Network,
  type Taper,
} from '../../solver/index.ts';
import { hasTwoLanes } from '../../solver/scheme/two-lane/kernel.ts';
import { TwoLaneDuct } from '../../solver/scheme/two-lane/two-lane-duct.ts';

const PERFECT = GasModel.perfectGas(1.4, 287);
const CHARGE = GasModel.charge(1.9, 1.1);
const AIR = GasModel.air();

const STRAIGHT: readonly Taper[] = [{ length: 0.5, diameter: [0.04, 0.04] }];
const CHAMBER: readonly Taper[] = [
  { length: 0.12, diameter: [0.038, 0.041] },
  { length: 0.2, diameter: [0.041, 0.11] },
  { length: 0.06, diameter: [0.11, 0.11] },
  { length: 0.12, diameter: [0.11, 0.022] },
];
const NONE: WallLosses = { friction: false, heat: 'none', roughness: 0 };
const PULSATING: WallLosses = { friction: true, heat: 'pulsating', roughness: 20e-6, heatFactor: 1.3 };
const COLBURN: WallLosses = { friction: true, heat: 'colburn', roughness: 20e-6 };

interface State {
  readonly pressure: number;
  readonly temperature: number;
  readonly velocity?: number;
  readonly burnt?: number;
}

interface Kind {
  readonly gas: GasModel;
  readonly tapers: readonly Taper[];
  readonly losses: WallLosses;
  readonly mixed?: boolean;
  readonly cell?: number;
  /** Steps are rejected, and taken again with caution. */
  readonly rejects?: boolean;
  /** State at a share of the length. */
  readonly at: (x: number) => State;
}

const bell = (x: number, middle: number): number => Math.exp(-(((x - middle) / 0.07) ** 2));
const waves = (x: number): State => ({
  pressure: 1e5 * (1 + 0.5 * bell(x, 0.3) - 0.2 * bell(x, 0.7)),
  temperature: 500 + 300 * Math.sin(5 * x),
  velocity: 60 * Math.sin(7 * x),
  burnt: 0.5 + 0.4 * Math.sin(9 * x),
});
/** Not uniform to the last bit on either side: where it is, round-off decides what is a crest. */
const tube =
  (high: number, low: number, velocity: number) =>
  (x: number): State => {
    const swell = 1 + 0.01 * Math.sin(11 * x);
    return x < 0.4
      ? { pressure: high * swell, temperature: 900, velocity: velocity * swell, burnt: 1 }
      : { pressure: low * swell, temperature: 300, velocity: velocity * swell, burnt: 0 };
  };
const fast =
  (velocity: number) =>
  (x: number): State => ({ ...tube(2e5, 1e5, velocity)(x), temperature: 1200 });

const kinds: Readonly<Record<string, Kind>> = {
  'perfect gas, straight': { gas: PERFECT, tapers: STRAIGHT, losses: NONE, at: waves },
  'perfect gas, chamber with losses': { gas: PERFECT, tapers: CHAMBER, losses: PULSATING, at: waves },
  'perfect gas, shock': { gas: PERFECT, tapers: STRAIGHT, losses: NONE, at: tube(12e5, 1e5, 0) },
  'perfect gas, strong expansion': { gas: PERFECT, tapers: STRAIGHT, losses: NONE, at: tube(10e5, 2e3, 0) },
  'blend, straight': { gas: CHARGE, tapers: STRAIGHT, losses: NONE, at: waves },
  'blend, chamber with losses': { gas: CHARGE, tapers: CHAMBER, losses: PULSATING, at: waves },
  'blend, heat by Colburn': { gas: CHARGE, tapers: CHAMBER, losses: COLBURN, at: waves },
  'blend, friction alone': {
    gas: CHARGE,
    tapers: CHAMBER,
    losses: { ...PULSATING, heat: 'none' },
    at: waves,
  },
  'blend, heat alone': { gas: CHARGE, tapers: CHAMBER, losses: { ...PULSATING, friction: false }, at: waves },
  'blend, odd number of cells': {
    gas: CHARGE,
    tapers: CHAMBER,
    losses: PULSATING,
    cell: 0.5 / 51,
    at: waves,
  },
  'blend, few cells': { gas: CHARGE, tapers: STRAIGHT, losses: PULSATING, cell: 0.1, at: waves },
  'blend, shock': { gas: CHARGE, tapers: CHAMBER, losses: PULSATING, at: tube(9e5, 1e5, 0) },
  'blend, supersonic': { gas: CHARGE, tapers: CHAMBER, losses: PULSATING, at: fast(950) },
  'blend, supersonic to the left': { gas: CHARGE, tapers: CHAMBER, losses: NONE, at: fast(-950) },
  'blend, reversed flow': { gas: CHARGE, tapers: CHAMBER, losses: PULSATING, at: tube(1e5, 4e5, -120) },
  'blend, torn apart until steps are rejected': {
    gas: CHARGE,
    tapers: STRAIGHT,
    losses: NONE,
    rejects: true,
    at: (x) => ({ ...tube(1e5, 1e5, x < 0.5 ? -720 : 720)(x), temperature: 300 }),
  },
  'blend, at rest': {
    gas: CHARGE,
    tapers: CHAMBER,
    losses: PULSATING,
    at: (x) => ({ pressure: 1e5, temperature: 400 + 300 * x, burnt: x }),
  },
  'air, no mixture': { gas: AIR, tapers: CHAMBER, losses: PULSATING, mixed: false, at: waves },
};

function marched(
  made: typeof ConservativeDuct,
  kind: Kind,
): { readonly duct: ConservativeDuct; readonly network: Network } {
  const cells = cellsFor(0.5, kind.cell ?? 0.01, 4);
  const duct = new made('duct', kind.gas, meshTapers(kind.tapers, cells), kind.losses, kind.mixed ?? true);
  duct.wallTemperature.fill(500);
  if (kind.losses.friction) {
    const loss = duct.geometry.diameter.map((D, i) => (0.2 + 0.1 * (i % 3)) / D);
    duct.giveShapeLosses(loss, loss.toReversed());
  }
  for (let i = 0; i < cells; i++) {
    const { pressure, temperature, velocity = 0, burnt = 0 } = kind.at((i + 0.5) / cells);
    duct.setCell(i, pressure, temperature, velocity, kind.gas.perfect ? 0 : burnt);
  }
  const links: readonly Link[] = [
    { kind: 'closed', end: duct.left },
    { kind: 'closed', end: duct.right },
  ];
  return { duct, network: new Network([duct], [], links, 0.8) };
}

const STEPS = 100;

const largest = (row: Float64Array): number =>
  row.reduce((most, value) => Math.max(most, Math.abs(value)), 0);

/** What both leave after a step, with the scale of each. Densities on the faces are left out: at rest, the sign of a velocity that is nought to round-off decides which side's. */
function outcome(
  duct: ConservativeDuct,
): readonly (readonly [name: string, row: Float64Array, scale: number])[] {
  const sound = largest(duct.a);
  const density = largest(duct.r);
  const area = largest(duct.geometry.faceArea);
  const pressure = largest(duct.p);
  const energy = largest(duct.now.energy);
  const flow = density * sound * area;
  const { now } = duct;
  return [
    ['density', now.density, density],
    ['momentum', now.momentum, density * sound],
    ['energy', now.energy, energy],
    ['burnt', now.burnt, density],
    ['temperature', duct.T, largest(duct.T)],
    ['velocity', duct.u, sound],
    ['pressure', duct.p, pressure],
    ['sound speed', duct.a, sound],
    ['gamma', duct.gamma, 1],
    ['pressure on the faces', duct.pStar, pressure],
    ['velocity on the faces', duct.uStar, sound],
    ['mass flux', duct.massFlux, flow],
    ['momentum flux', duct.momentumFlux, flow * sound],
    ['energy flux', duct.energyFlux, energy * sound * area],
    ['burnt flux', duct.burntFlux, flow],
    ['friction', duct.frictionOverD, largest(duct.frictionOverD) || 1],
    ['heat', duct.heatOverD, largest(duct.heatOverD) || 1],
  ];
}

/** Largest difference of two ducts over the scale of its quantity, and of which. */
function apart(
  plain: ConservativeDuct,
  other: ConservativeDuct,
): { readonly most: number; readonly of: string } {
  let most = 0;
  let of = 'none';
  const others = outcome(other);
  outcome(plain).forEach(([name, row, scale], k) => {
    for (let i = 0; i < row.length; i++) {
      const difference = Math.abs(row[i]! - others[k]![1][i]!) / scale;
      if (!(difference <= most)) {
        most = difference;
        of = `${name}, place ${i}`;
      }
    }
  });
  return { most, of };
}

/** Takes the state of one duct into another, with the temperatures that its decoding starts from. */
function copy(from: ConservativeDuct, to: ConservativeDuct): void {
  for (const name of ['density', 'momentum', 'energy', 'burnt'] as const) to.now[name].set(from.now[name]);
  to.T.set(from.T);
}

/** A machine without the compiler has no such kernel, and a build that lost it must not pass for one. */
const installed = existsSync(new URL('../../node_modules/assemblyscript', import.meta.url));

test('the kernel is there where its compiler is', () => {
  expect(hasTwoLanes()).toBe(installed);
});

describe.skipIf(!installed)('a step of two lanes from the plain state', () => {
  test.each(Object.entries(kinds))('%s', (_, kind) => {
    const plain = marched(ConservativeDuct, kind);
    const lanes = marched(TwoLaneDuct, kind);
    for (let step = 0; step < STEPS; step++) {
      copy(plain.duct, lanes.duct);
      lanes.network.touch();
      const dt = plain.network.step(1e-3);
      expect(Math.abs(lanes.network.step(1e-3) / dt - 1)).toBeLessThan(1e-13);
      const { most, of } = apart(plain.duct, lanes.duct);
      expect(most, `step ${step}: ${of}`).toBeLessThan(1e-12);
    }
    expect(plain.network.ledger.rejected > 0).toBe(kind.rejects === true);
    expect(lanes.network.ledger.rejected).toBe(plain.network.ledger.rejected);
    expect(lanes.network.ledger.unconverged).toBe(plain.network.ledger.unconverged);
    expect(lanes.network.ledger.ductHeat).toBeCloseTo(plain.network.ledger.ductHeat, 9);
    for (const slot of Object.values(ARRIVE)) {
      const [ours, theirs] = [lanes, plain].map(({ duct }) => duct.right.arrive[slot]!) as [number, number];
      expect(Math.abs(ours - theirs)).toBeLessThan(1e-11 * Math.max(1, Math.abs(theirs)));
    }
    expect(lanes.duct.left.answer[ANSWER.mass]).toBe(0);
  });
});
