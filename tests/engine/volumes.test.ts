/**
 * Ring: identity. A motored cylinder that leaks nothing and loses no heat gives back the work of its compression, and
 * follows p V^gamma = const; burning in it sets free the heat it is given.
 */

import { describe, expect, test } from 'vitest';
import { type Asked, DRIVE, GasModel, movingDrive, Network, rigidDrive, Volume } from '../../solver/index.ts';
import { burntShare } from '../../src/timing/wiebe.ts';

const RPM = 10_000;
const TURN = 60 / RPM;
const volumeAt = (time: number): number => 20e-6 + 62e-6 * (1 - Math.cos((2 * Math.PI * time) / TURN));

function march(volume: Volume, until: number, steps: number): Network {
  const network = new Network([], [volume], [], 0.8);
  while (until - network.time > 1e-12 * until) network.step(TURN / steps);
  return network;
}

describe('a motored cylinder', () => {
  const drive = movingDrive(volumeAt);

  test('returns its work, to the second order of the step', () => {
    const losses = [720, 1440].map((steps) => {
      const volume = new Volume('cylinder', GasModel.perfectGas(1.35, 287), drive);
      volume.fill(0, 12e5, 700, 0);
      const start = volume.energyContent();
      const network = march(volume, TURN, steps);
      expect(Math.abs(network.ledger.work + (volume.energyContent() - start))).toBeLessThan(1e-10 * start);
      return Math.abs(network.ledger.work) / start;
    });
    expect(losses[1]).toBeLessThan(1e-5);
    expect(losses[0]! / losses[1]!).toBeGreaterThan(3);
  });

  test('is isentropic at bottom dead centre', () => {
    const volume = new Volume('cylinder', GasModel.perfectGas(1.35, 287), drive);
    volume.fill(0, 12e5, 700, 0);
    march(volume, TURN / 2, 2880);
    const expected = 12e5 * (volumeAt(0) / volumeAt(TURN / 2)) ** 1.35;
    expect(volume.pressure / expected).toBeCloseTo(1, 5);
  });
});

/** A charge that burns in a fifth of a turn. */
function burning() {
  return {
    fillBurntShare: (asked: Asked) => {
      const share = burntShare(asked[DRIVE.time]! / (0.2 * TURN), 6.908, 2);
      asked[DRIVE.burntShare] = share / burntShare(1, 6.908, 2);
    },
    freshMass: 0,
    heatPerMass: 2.6e6,
  };
}

test('burning releases its heat and turns the charge to burnt gas', () => {
  const release = burning();
  const volume = new Volume('bomb', GasModel.charge(1.85, 1.1), { ...rigidDrive(1e-4), release });
  volume.fill(0, 1e6, 500, 0.1);
  release.freshMass = 0.9 * volume.mass();
  const before = volume.energyContent();
  const network = march(volume, 0.3 * TURN, 400);
  expect(network.ledger.released / (release.freshMass * 2.6e6)).toBeCloseTo(1, 12);
  expect((volume.energyContent() - before) / network.ledger.released).toBeCloseTo(1, 12);
  expect(volume.burntMass() / volume.mass()).toBeCloseTo(1, 12);
});

test('what was to burn and is not there is counted', () => {
  const release = burning();
  const volume = new Volume('bomb', GasModel.charge(1.85, 1.1), { ...rigidDrive(1e-4), release });
  volume.fill(0, 1e6, 500, 0.4);
  // Told that all of it is fresh, it burns the six tenths that are.
  release.freshMass = volume.mass();
  const { ledger } = march(volume, 0.3 * TURN, 400);
  expect(ledger.unburnt / volume.mass()).toBeCloseTo(0.4, 12);
  expect(ledger.released / (0.6 * volume.mass() * 2.6e6)).toBeCloseTo(1, 12);
});
