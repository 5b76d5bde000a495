/** The march of a network: order in time of a vessel on a duct, steps taken again, what a failure says. */

import { describe, expect, test } from 'vitest';
import {
  CLOCK,
  type Clock,
  DRIVE,
  type Link,
  MarchFailure,
  movingDrive,
  Network,
  newFlow,
  type Opening,
  rigidDrive,
  Volume,
  type VolumeDrive,
} from '../../solver/index.ts';
import { AIR, closedTube, fill, straight } from './constant-gamma.ts';

const OPENS = 1.5e-3;

/** A port that opens and closes smoothly, once. */
function smoothOpening(area: number): Opening {
  const opening = {
    areaOut: 0,
    areaIn: 0,
    set(clock: Clock): void {
      const time = clock[CLOCK.stage]!;
      opening.areaOut = time < OPENS ? area * Math.sin((Math.PI * time) / OPENS) ** 4 : 0;
      opening.areaIn = opening.areaOut;
    },
  };
  return opening;
}

/** Pressure in a vessel that lets gas into a closed pipe and feels the echo, and in one whose piston moves besides. */
function vesselPressure(cells: number, drive: VolumeDrive): number {
  const pipe = straight('pipe', 0.2, 0.03, cells);
  fill(pipe, () => ({ pressure: 1e5, temperature: 300 }));
  const volume = new Volume('vessel', AIR, drive);
  volume.fill(0, 1.4e5, 350, 0);
  const links: readonly Link[] = [
    {
      kind: 'port',
      end: pipe.left,
      volume,
      role: 'plain',
      opening: smoothOpening(2e-4),
      flow: newFlow(),
    },
    { kind: 'closed', end: pipe.right },
  ];
  const network = new Network([pipe], [volume], links, 0.8);
  network.marchTo(1.6e-3);
  return volume.pressure;
}

describe('order in time', () => {
  const piston: VolumeDrive = {
    ...movingDrive((time) => 100e-6 * (1 + 0.3 * Math.sin(900 * time))),
    fillWallHeat: (asked) => {
      asked[DRIVE.wallHeat] = 1e-3 * (asked[DRIVE.pressure]! - 1e5);
    },
  };
  test.each([
    ['rigid', rigidDrive(100e-6)],
    ['with a piston and a warm wall', piston],
  ] as const)('a vessel on a duct, %s, is of second order', (_, drive) => {
    const limit = vesselPressure(640, drive);
    const coarse = Math.abs(vesselPressure(80, drive) - limit);
    const fine = Math.abs(vesselPressure(320, drive) - limit);
    // A first-order coupling would give 1.1 (the limit is not quite one); mesh and step are refined together.
    expect(Math.log2(coarse / fine) / 2).toBeGreaterThan(1.9);
    expect(coarse / limit).toBeLessThan(1e-4);
  });
});

describe('steps', () => {
  test('the step follows the fastest characteristic and the limit, and starts softly', () => {
    const tube = straight('tube', 1, 0.04, 100);
    fill(tube, () => ({ pressure: 1e5, temperature: 300 }));
    const network = closedTube(tube, 0.5);
    const stable = 0.01 / Math.sqrt(1.4 * 287 * 300);
    const first = network.step(1);
    for (let k = 0; k < 5; k++) network.step(1);
    expect(first).toBeLessThan(0.2 * 0.5 * stable);
    expect(network.step(1) / (0.5 * stable)).toBeCloseTo(1, 10);
    expect(network.step(1e-9)).toBe(1e-9);
    network.marchTo(1e-3);
    expect(network.time).toBeCloseTo(1e-3, 15);
    expect(network.ledger.rejected).toBe(0);
  });

  test('a step that fails is taken again, smaller, and loses nothing', () => {
    const tube = straight('tube', 1, 0.04, 100);
    // Two streams that part so fast that they leave next to nothing between them.
    fill(tube, (x) => ({ pressure: 1e5, temperature: 300, velocity: x < 0.5 ? -1600 : 1600 }));
    const network = closedTube(tube);
    const [mass, energy] = [network.mass(), network.energyContent()];
    network.marchTo(0.15e-3);
    expect(network.ledger.rejected).toBeGreaterThan(0);
    expect(Math.abs(network.mass() / mass - 1)).toBeLessThan(1e-13);
    expect(Math.abs(network.energyContent() / energy - 1)).toBeLessThan(1e-13);
    for (let i = 0; i < 100; i++) expect(tube.p[i + 2]).toBeGreaterThan(0);
  });

  test('a state that is not physical is named by place and value', () => {
    const tube = straight('tail pipe', 1, 0.04, 100);
    fill(tube, () => ({ pressure: 1e5, temperature: 300 }));
    tube.now.energy[40] = -1;
    const network = closedTube(tube);
    expect(() => network.step(1)).toThrow(MarchFailure);
    expect(() => network.step(1)).toThrow(/duct "tail pipe" at 405 mm: density 1\.16.* pressure -/);
  });

  test('a Courant number above 1 is refused', () => {
    expect(() => closedTube(straight('tube', 1, 0.04, 10), 1.2)).toThrow(RangeError);
  });
});
