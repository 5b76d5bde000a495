/**
 * A vessel empties through a choked opening, isentropically: p/p0 = [1 + (gamma-1)/2 K t/tau]^(-2gamma/(gamma-1)) (derived
 * here from the choked flow; agrees with an integration of the ordinary differential equation). Ring: exact solution.
 */

import { describe, expect, test } from 'vitest';
import {
  fixedOpening,
  GasModel,
  type Link,
  Network,
  newFlow,
  newReservoir,
  rigidDrive,
  setReservoir,
  Volume,
} from '../../solver/index.ts';
import { closedTube, fill, straight } from './constant-gamma.ts';

interface Case {
  readonly gamma: number;
  readonly R: number;
  readonly volume: number;
  readonly area: number;
  readonly temperature: number;
  /** Time to half the pressure [s], and the temperature then. */
  readonly half: number;
  readonly afterwards: number;
}

const CASES: readonly Case[] = [
  { gamma: 1.4, R: 287, volume: 1e-3, area: 1e-4, temperature: 300, half: 25.9033e-3, afterwards: 246.1006 },
  {
    gamma: 1.33,
    R: 289,
    volume: 1e-4,
    area: 4e-4,
    temperature: 1400,
    half: 0.3180039e-3,
    afterwards: 1178.79,
  },
];
const START = 20e5;

/** Time at which the volume reaches half its pressure, and its temperature then. */
function halfTime(network: Network, volume: Volume): { time: number; temperature: number } {
  let before = { time: 0, pressure: START, temperature: volume.temperature[0]! };
  for (;;) {
    network.step(1);
    const now = { time: network.time, pressure: volume.pressure, temperature: volume.temperature[0]! };
    if (now.pressure <= 0.5 * START) {
      const w = Math.log(before.pressure / (0.5 * START)) / Math.log(before.pressure / now.pressure);
      return {
        time: before.time + w * (now.time - before.time),
        temperature: before.temperature + w * (now.temperature - before.temperature),
      };
    }
    before = now;
  }
}

describe('blowdown of a vessel', () => {
  test.each(CASES)('of $volume m3 at $temperature K through a port into a pipe', (one) => {
    const gas = GasModel.perfectGas(one.gamma, one.R);
    const volume = new Volume('vessel', gas, rigidDrive(one.volume));
    volume.fill(0, START, one.temperature, 0);
    // A pipe ten times as wide as the port: its pressure stays far below what would reach back to a choked port.
    const pipe = straight('pipe', 0.2, Math.sqrt((40 * one.area) / Math.PI), 20, gas);
    fill(pipe, () => ({ pressure: 1e5, temperature: one.temperature }));
    const reservoir = newReservoir();
    setReservoir(reservoir, gas, 1e5, one.temperature, 0);
    const opening = fixedOpening(one.area);
    const links: readonly Link[] = [
      { kind: 'port', end: pipe.left, volume, role: 'plain', opening, flow: newFlow() },
      { kind: 'nonreflecting', end: pipe.right, reservoir, incident: () => 1e5, flow: newFlow() },
    ];
    const { time, temperature } = halfTime(new Network([pipe], [volume], links, 0.8), volume);
    expect(Math.abs(time / one.half - 1)).toBeLessThan(1e-3);
    expect(Math.abs(temperature / one.afterwards - 1)).toBeLessThan(1e-4);
  });

  test.each(CASES)('of $volume m3 at $temperature K through a passage into a large room', (one) => {
    const gas = GasModel.perfectGas(one.gamma, one.R);
    const volume = new Volume('vessel', gas, rigidDrive(one.volume));
    const room = new Volume('room', gas, rigidDrive(1000 * one.volume));
    volume.fill(0, START, one.temperature, 0);
    room.fill(0, 1e5, one.temperature, 0);
    // The step is a duct's: one that stands by and sets it.
    const clock = straight('clock', 0.05, 0.02, 10, gas);
    fill(clock, () => ({ pressure: 1e5, temperature: one.temperature }));
    const links: readonly Link[] = [
      ...closedTube(clock).links,
      {
        kind: 'passage',
        from: volume,
        to: room,
        toRole: 'plain',
        opening: fixedOpening(one.area),
        inertance: 0,
        column: new Float64Array(2),
        flow: newFlow(),
      },
    ];
    const { time, temperature } = halfTime(new Network([clock], [volume, room], links, 0.8), volume);
    expect(Math.abs(time / one.half - 1)).toBeLessThan(1e-3);
    expect(Math.abs(temperature / one.afterwards - 1)).toBeLessThan(1e-4);
  });
});
