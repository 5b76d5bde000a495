/** What drives the engine's volumes, held to worked values. Ring: identity. */

import { describe, expect, test } from 'vitest';
import { DRIVE, newAsked } from '../../solver/volumes/drive.ts';
import { cylinderDriveOf } from '../../src/engine/parts/cylinder-drive.ts';
import { WiebeRelease } from '../../src/engine/parts/heat-release.ts';
import { cylinderWall, sweptVolume, volumesOf } from '../../src/timing/volume.ts';
import { engine } from '../timing/saltmarsh.ts';

const RPM = 12_000;
const phase = { rpm: RPM, phaseDeg: 0 };
const timeAt = (deg: number): number => deg / (6 * RPM);

describe("Woschni's coefficient, bore 54 mm, mean piston speed 21.8 m/s", () => {
  const wallTemperature = 470;
  const hot = {
    ...engine,
    cylinderHeat: { model: 'woschni', coefficient: 1, wallTemperature },
  } as const;
  const volumes = volumesOf(hot);

  /** The coefficient at a crank angle, of gas at a pressure and temperature [W/(m2 K)]. */
  function coefficient(deg: number, pressure: number, temperature: number, closing = [0, 0, 0]): number {
    const drive = cylinderDriveOf(hot, volumes, phase, null);
    drive.noteClosing(closing[0]!, closing[1]!, closing[2]!);
    const asked = newAsked();
    asked[DRIVE.time] = timeAt(deg);
    asked[DRIVE.pressure] = pressure;
    asked[DRIVE.temperature] = temperature;
    drive.fillVolume(asked);
    drive.fillWallHeat(asked);
    const area = cylinderWall(volumes, asked[DRIVE.volume]!);
    return asked[DRIVE.wallHeat]! / (area * (wallTemperature - temperature));
  }

  // Heywood 1988, eq. 12.19, from memory; recomputed. The exhaust is open from 83 to 277 deg, ignition is at 347 deg.
  test.each([
    ['in scavenging', 180, 1.2e5, 900, 322.7],
    ['just before exhaust closing', 276, 1.2e5, 900, 322.7],
    ['just after it', 278, 30e5, 2000, 1230.2],
    ['in compression, any turn', 360 * 7 + 320, 30e5, 2000, 1230.2],
    ['just before exhaust opening', 82, 30e5, 2000, 1230.2],
    ['just after it', 84, 1.2e5, 900, 322.7],
  ])('%s', (_, deg, pressure, temperature, expected) => {
    expect(Math.abs(coefficient(deg, pressure, temperature) - expected)).toBeLessThan(0.05);
  });

  // C2 Vd Tr/(pr Vr) (p - pm), eq. 12.19 again: with Vr = Vd and Tr/pr = 400 K/bar it is 1.296 m/s a bar above the motored.
  test('burning adds to the gas speed from ignition to exhaust opening, not in compression or gas exchange', () => {
    const closing = [1e5, 400, sweptVolume(volumes)];
    const with30 = (deg: number) => coefficient(deg, 30e5, 2000, closing);
    for (const deg of [180, 300, 346]) expect(with30(deg)).toBe(coefficient(deg, 30e5, 2000));
    for (const deg of [348, 360, 381, 440]) {
      const asked = newAsked();
      asked[DRIVE.time] = timeAt(deg);
      cylinderDriveOf(hot, volumes, phase, null).fillVolume(asked);
      const motored = (sweptVolume(volumes) / asked[DRIVE.volume]!) ** 1.33;
      const speed = 2.28 * 21.8 + Math.max(0, 3.24e-3 * 400 * (30 - motored));
      expect(with30(deg) / 1230.2).toBeCloseTo((speed / (2.28 * 21.8)) ** 0.8, 4);
    }
    expect(with30(440)).toBeGreaterThan(1500);
  });
});

describe('heat release', () => {
  // a = 5, m = 2 from 13 deg before top dead centre, 52 deg long: burntShare of schedule.test.ts over its end, 0.99326.
  test.each([
    [-13, 0],
    [0, 0.07515 / 0.99326],
    [13, 0.46474 / 0.99326],
    [26, 0.87869 / 0.99326],
    [39, 1],
    [200, 1],
    [346, 1],
    [373, 1 + 0.46474 / 0.99326],
    [360 * 5 + 100, 6],
  ])('at %s deg of the crank %s charges have burnt', (deg, expected) => {
    const release = new WiebeRelease(engine.combustion, phase, 2.6e6, 82);
    const asked = newAsked();
    asked[DRIVE.time] = timeAt(deg);
    release.fillBurntShare(asked);
    expect(asked[DRIVE.burntShare]).toBeCloseTo(expected, 4);
  });
});
