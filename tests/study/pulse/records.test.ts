/** Ring: identity. How a pulse starts from its sections, and what is kept of it. Sources beside each check. */

import { describe, expect, test } from 'vitest';
import { buildRig } from '../../../src/study/pulse/rig.ts';
import { runPulse } from '../../../src/study/pulse/run-pulse.ts';
import { pulseOf } from './pulse-of.ts';

describe('the start', () => {
  test('a membrane inside a cell shares it by exact volumes: mass and energy are those of the sections', () => {
    const sections = [
      { length: 0.1234, diameter: [0.04, 0.07] as const, pressure: 2.5e5, temperature: 900, velocity: 20 },
      { length: 0.2, diameter: [0.07, 0.03] as const },
    ];
    const { network } = buildRig(pulseOf({ sections, rightEnd: { kind: 'open', endCorrection: 0 } }));
    const cone = (l: number, a: number, b: number): number => (Math.PI / 12) * l * (a * a + a * b + b * b);
    const [left, right] = [cone(0.1234, 0.04, 0.07), cone(0.2, 0.07, 0.03)];
    const dense = 2.5e5 / (287 * 900);
    expect(network.mass() / (dense * left + (1e5 / (287 * 300)) * right)).toBeCloseTo(1, 13);
    const energy = 2.5 * (2.5e5 * left + 1e5 * right) + 0.5 * dense * 20 ** 2 * left;
    expect(network.energyContent() / energy).toBeCloseTo(1, 13);
  });

  test('a duct of real gas at rest stays at rest over a jump of area, friction and heat switched on', () => {
    for (const kind of ['air', 'exhaust'] as const) {
      const { probes, balance } = runPulse(
        pulseOf({
          gas: { kind },
          friction: true,
          wallHeat: 'colburn',
          sections: [
            { length: 0.2, diameter: [0.03, 0.08] },
            { length: 0.2, diameter: [0.05, 0.02] },
          ],
          rightEnd: { kind: 'open', endCorrection: 0.6 },
          probes: [{ name: 'p', at: 0.15 }],
          until: 3e-3,
        }),
      );
      for (const p of probes[0]!.pressure) expect(Math.abs(p / 1e5 - 1)).toBeLessThan(1e-13);
      expect(Math.abs(balance.massError)).toBeLessThan(1e-12);
    }
  });
});

describe('records', () => {
  const pulse = pulseOf({
    sections: [
      { length: 0.3, diameter: [0.04, 0.04], pressure: 2e5 },
      { length: 0.3, diameter: [0.04, 0.04] },
    ],
    probes: [
      { name: 'wall', at: 0 },
      { name: 'end', at: 0.6 },
    ],
    profilesAt: [0.4e-3, 0, 0.2e-3],
    rightEnd: { kind: 'open', endCorrection: 0.6 },
    until: 1e-3,
  });

  test('samples run from 0 to the end, profiles come in the order of time and inside the sections', () => {
    const { time, probes, profiles } = runPulse(pulse);
    expect(time.length).toBe(201);
    expect(time[1]).toBe(5e-6);
    expect(time.at(-1)).toBe(1e-3);
    expect(probes.map(({ pressure }) => pressure.length)).toEqual([201, 201]);
    expect(profiles.map((one) => one.time)).toEqual([0, 0.2e-3, 0.4e-3]);
    for (const { positions, pressure } of profiles) {
      expect(positions.at(-1)).toBeLessThan(0.6);
      expect(positions.length).toBe(pressure.length);
    }
    expect(profiles[0]!.pressure[10]).toBeCloseTo(2e5, 6);
  });

  test('the same pulse gives the same record, to the last digit', () => {
    expect(JSON.stringify(runPulse(pulse))).toBe(JSON.stringify(runPulse(pulse)));
  });

  test('what was sampled does not depend on how often', () => {
    const often = runPulse(pulse).probes[0]!.pressure;
    const seldom = runPulse({ ...pulse, sampleEvery: 20e-6 }).probes[0]!.pressure;
    seldom.forEach((value, k) => void expect(value).toBeCloseTo(often[4 * k]!, 6));
  });

  test('the mesh scheme is run when asked for, and says what it is', () => {
    const { notes, probes, balance } = runPulse({ ...pulse, scheme: 'mesh' });
    const other = runPulse(pulse);
    expect(notes.some((note) => note.includes('second opinion'))).toBe(true);
    expect(Math.abs(probes[0]!.trough.pressure / other.probes[0]!.trough.pressure - 1)).toBeLessThan(0.02);
    expect(Math.abs(balance.massError)).toBeGreaterThan(1e-9);
  });

  test('finite volumes come to the same and keep mass', () => {
    const { notes, probes, balance } = runPulse({ ...pulse, scheme: 'finite-volume' });
    const other = runPulse(pulse);
    expect(notes).toEqual(other.notes);
    expect(Math.abs(probes[0]!.trough.pressure / other.probes[0]!.trough.pressure - 1)).toBeLessThan(0.005);
    expect(Math.abs(balance.massError)).toBeLessThan(1e-12);
  });
});
