/** Single pulses from file to trace: waves, ends, vessels, and what is written of them. Sources beside each check. */

import { describe, expect, test } from 'vitest';
import type { PulseEnd } from '../../../src/model/pulse.ts';
import { runPulse } from '../../../src/study/pulse/run-pulse.ts';
import { wavePressure } from '../../../src/study/pulse/superposition.ts';
import { bordaStep } from '../../../src/verify/exact/area-step.ts';
import { blowDownPressure } from '../../../src/verify/exact/blow-down.ts';
import { chamberEcho } from '../../../src/verify/exact/chamber-echo.ts';
import { reflectAtOpenEnd } from '../../../src/verify/exact/open-end.ts';
import { reflectAtPartlyOpenEnd } from '../../exact/partly-open-end.ts';
import { expectRow } from '../../verify/exact/digits.ts';
import { pulseOf } from './pulse-of.ts';

const SOUND = Math.sqrt(1.4 * 287 * 300);

/** A wave that changes within a few cells and then stays, as a section of compressed gas in its own stream. */
function plateau(P: number): { pressure: number; temperature: number; velocity: number } {
  const X = P ** (1 / 7);
  return { pressure: 1e5 * P, temperature: 300 * X * X, velocity: 5 * SOUND * (X - 1) };
}

describe('superposed waves', () => {
  // Blair, Design and Simulation of Two-Stroke Engines (1996), chapter 2, from memory; recomputed: p/p0 and u back into P_R, P_L.
  test.each([
    [0.96561, 99.0966, '1.2000 0.8000'],
    [1.43335, 0, '1.2000 1.2000'],
    [0.635314, 0, '0.8000 0.8000'],
    [1.071815, 187.5312, '1.5000 0.7000'],
  ] as const)('%s and %s m/s are two waves', (P, u, row) => {
    const a0 = 343.1143;
    const a = a0 * P ** (1 / 7);
    expectRow([wavePressure(P, u, a, 1.4, 1), wavePressure(P, -u, a, 1.4, 1)], row);
  });

  test('a stream too fast for a wave against it leaves none', () => {
    expect(wavePressure(1, -4000, 343, 1.4, 1)).toBe(0);
  });
});

describe('an incident wave', () => {
  const stated = {
    sections: [{ length: 0.6, diameter: [0.04, 0.04] as const }],
    leftEnd: { kind: 'incident', shape: 'gaussian', amplitude: 100, at: 1e-3, width: 0.25e-3 },
    rightEnd: { kind: 'nonreflecting' },
    probes: [{ name: 'p', at: 0.3 }],
    until: 4e-3,
  } as const;

  test('runs to the right as it was sent, and nothing comes back', () => {
    const { time, probes } = runPulse(pulseOf(stated));
    const { forward, backward, pressure, velocity } = probes[0]!;
    const sent = (t: number): number => 100 * Math.exp(-(((t - 1e-3 - 0.3 / SOUND) / 0.25e-3) ** 2));
    time.forEach((t, k) => {
      expect(Math.abs(forward[k]! - 1e5 - sent(t))).toBeLessThan(0.5);
      expect(Math.abs(backward[k]! - 1e5)).toBeLessThan(0.05);
      // rho a u = p' for a wave this small.
      expect(velocity[k]! * 1.4 * (1e5 / SOUND)).toBeCloseTo(pressure[k]! - 1e5, 0);
    });
  });

  test('is the mirror image from the right', () => {
    const { leftEnd, rightEnd } = stated;
    const there = runPulse(pulseOf(stated)).probes[0]!;
    const back = runPulse(pulseOf({ ...stated, leftEnd: rightEnd, rightEnd: leftEnd })).probes[0]!;
    there.forward.forEach((value, k) => void expect(Math.abs(value - back.backward[k]!)).toBeLessThan(1e-4));
  });
});

describe('ends', () => {
  /** Wave that comes back to the middle of the duct when a plateau of ratio P meets the right end [p0]. */
  function echo(P: number, rightEnd: PulseEnd): number {
    const result = runPulse(
      pulseOf({
        sections: [
          { length: 1, diameter: [0.04, 0.04], ...plateau(P) },
          { length: 0.5, diameter: [0.04, 0.04] },
        ],
        leftEnd: { kind: 'nonreflecting' },
        rightEnd,
        probes: [{ name: 'p', at: 1.25 }],
        until: 3e-3,
      }),
    );
    // Late enough for the echo to have built up: front 0.5 m to the end, 0.25 m back.
    return result.probes[0]!.backward.at(-1)! / 1e5;
  }

  // Benson (1982), from memory. Simple waves of 1.2 differ from shocks by a part in a thousand.
  test('open', () => {
    expect(echo(1.2, { kind: 'open', endCorrection: 0 })).toBeCloseTo(
      reflectAtOpenEnd(1.2, 1.4).reflectedRatio,
      3,
    );
  });
  test('nozzle', () => {
    const diameter = 0.04 * Math.sqrt(0.3);
    expect(echo(1.2, { kind: 'nozzle', diameter })).toBeCloseTo(
      reflectAtPartlyOpenEnd(1.2, 0.3, 1.4).reflectedRatio,
      3,
    );
  });
  test('closed', () => expect(echo(1.2, { kind: 'closed' })).toBeCloseTo(1.2, 3));
  test('non-reflecting', () => expect(echo(1.2, { kind: 'nonreflecting' })).toBeCloseTo(1, 3));

  test('an open end with its correction answers later by the way there and back, positions stay', () => {
    const crossing = (end: 'leftEnd' | 'rightEnd', endCorrection: number): number => {
      const wave = {
        kind: 'incident',
        shape: 'gaussian',
        amplitude: 100,
        at: 0.5e-3,
        width: 0.1e-3,
      } as const;
      const { time, probes, notes } = runPulse(
        pulseOf({
          sections: [{ length: 0.5, diameter: [0.1, 0.1] }],
          [end]: { kind: 'open', endCorrection },
          [end === 'leftEnd' ? 'rightEnd' : 'leftEnd']: wave,
          probes: [{ name: 'p', at: 0.25 }],
          until: 4e-3,
          cell: 2e-3,
          sampleEvery: 1e-6,
        }),
      );
      expect(notes.some((note) => note.includes('end correction'))).toBe(endCorrection > 0);
      const pressure = probes[0]!.pressure;
      return time[pressure.indexOf(Math.min(...pressure))]!;
    };
    for (const end of ['leftEnd', 'rightEnd'] as const) {
      const later = crossing(end, 0.6) - crossing(end, 0);
      expect(Math.abs(later - (2 * 0.6 * 0.05) / SOUND)).toBeLessThan(3e-6);
    }
  });
});

test('a jump of area sends back and lets on what Borda and Carnot say', () => {
  const m = 4;
  const exact = bordaStep(1.2, m, 1.4)!;
  const { probes, notes, ducts } = runPulse(
    pulseOf({
      sections: [
        { length: 1, diameter: [0.03, 0.03], ...plateau(1.2) },
        { length: 0.3, diameter: [0.03, 0.03] },
        { length: 0.6, diameter: [0.06, 0.06] },
      ],
      leftEnd: { kind: 'nonreflecting' },
      rightEnd: { kind: 'nonreflecting' },
      probes: [
        { name: 'before', at: 1.2 },
        { name: 'behind', at: 1.5 },
      ],
      until: 2.2e-3,
    }),
  );
  expect(ducts.map(({ start }) => start)).toEqual([0, 1.3]);
  expect(notes.some((note) => note.includes('jump of area'))).toBe(true);
  expect(Math.abs(probes[0]!.backward.at(-1)! / 1e5 / exact.reflected - 1)).toBeLessThan(1e-3);
  expect(Math.abs(probes[1]!.forward.at(-1)! / 1e5 / exact.transmitted - 1)).toBeLessThan(1e-3);
});

describe('a whole chamber, linear', () => {
  // Transfer matrices (Munjal, Acoustics of Ducts and Mufflers, from memory) and a Fourier sum.
  const c = 343.2;
  const drawing = [
    [300, 38, 38],
    [450, 38, 110],
    [80, 110, 110],
    [220, 110, 22],
    [250, 22, 22],
  ].map(([length, inlet, outlet]) => ({ length: length! / 1e3, inlet: inlet! / 1e3, outlet: outlet! / 1e3 }));
  const exact = chamberEcho(drawing, c, { at: 1e-3, width: 0.25e-3 });

  // Share of the incident amplitude; times [ms].
  test.each([
    [5e-3, 0.005, 0.012, 0.02],
    [2e-3, 0.002, 0.005, 0.005],
  ])('at cells of %s m the trough and peaks are within %s and %s ms', (cell, amplitude, ms, whole) => {
    const lead = 0.2;
    const { time, probes } = runPulse(
      pulseOf({
        ambient: { pressure: 1e5, temperature: (c * c) / (1.4 * 287) },
        sections: [
          { length: lead, diameter: [0.038, 0.038] },
          ...drawing.map(({ length, inlet, outlet }) => ({ length, diameter: [inlet, outlet] as const })),
        ],
        leftEnd: { kind: 'incident', shape: 'gaussian', amplitude: 50, at: 1e-3, width: 0.25e-3 },
        rightEnd: { kind: 'open', endCorrection: 0 },
        probes: [{ name: 'inlet', at: lead }],
        until: 11e-3,
        cell,
      }),
    );
    const echo = probes[0]!.backward.map((p) => (p - 1e5) / 50);
    const late = time.map((t) => t - lead / c);
    // Trough of the diffuser, peak of the baffle, peak of its echo: within half a millisecond of where they stand.
    for (const [at, sign] of [
      [3.04e-3, -1],
      [6.64e-3, 1],
      [8.88e-3, 1],
    ] as const) {
      const found = extreme(late, echo, at, sign);
      const fine = Array.from({ length: 2001 }, (_, k) => at - 1e-3 + k * 1e-6);
      const wanted = extreme(fine, fine.map(exact), at, sign);
      expect(Math.abs(found.value - wanted.value)).toBeLessThan(amplitude);
      expect(1000 * Math.abs(found.time - wanted.time)).toBeLessThan(ms);
    }
    late.forEach((t, k) => void expect(Math.abs(echo[k]! - exact(t))).toBeLessThan(whole));
  });

  function extreme(times: readonly number[], values: readonly number[], at: number, sign: 1 | -1) {
    let best = -1;
    times.forEach((t, k) => {
      if (Math.abs(t - at) < 0.4e-3 && (best < 0 || sign * values[k]! > sign * values[best]!)) best = k;
    });
    const [a, b, c] = [values[best - 1]!, values[best]!, values[best + 1]!];
    const shift = (0.5 * (a - c)) / (a - 2 * b + c);
    return {
      time: times[best]! + shift * (times[best + 1]! - times[best]!),
      value: b - 0.25 * (a - c) * shift,
    };
  }
});

describe('vessels', () => {
  test('blow down as the quasi-steady vessel does while the opening chokes', () => {
    const { time, vessels, probes } = runPulse(
      pulseOf({
        sections: [{ length: 0.3, diameter: [0.06, 0.06] }],
        leftEnd: { kind: 'vessel', volume: 1e-4, pressure: 2e6, temperature: 1400, openingDiameter: 0.02 },
        rightEnd: { kind: 'nonreflecting' },
        probes: [{ name: 'p', at: 0.1 }],
        until: 0.5e-3,
      }),
    );
    const { side, pressure, temperature, mass } = vessels[0]!;
    expect(side).toBe('left');
    const vessel = {
      gas: { gamma: 1.4, gasConstant: 287, pressure: 2e6, temperature: 1400 },
      volume: 1e-4,
      effectiveArea: (Math.PI / 4) * 0.02 ** 2,
    };
    time.forEach((t, k) => {
      expect(pressure[k]! / blowDownPressure(vessel, 1e5, t) - 1).toBeCloseTo(0, 2);
      expect(pressure[k]! / ((mass[k]! * 287 * temperature[k]!) / 1e-4)).toBeCloseTo(1, 12);
    });
    expect(probes[0]!.peak.pressure).toBeGreaterThan(2e5);
  });
});
