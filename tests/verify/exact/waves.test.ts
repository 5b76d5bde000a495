import { describe, expect, it } from 'vitest';
import { rootBetween } from '../../../src/verify/exact/root.ts';
import {
  decayedPulse,
  halfSineShockDistance,
  halfSineShockTime,
  harmonicShockDistance,
  releasedShockTime,
} from '../../../src/verify/exact/shock-formation.ts';
import {
  releasedWave,
  restSoundSpeed,
  type StillGas,
  sentWave,
  simpleWave,
  superpose,
} from '../../../src/verify/exact/simple-wave.ts';
import { expectPrinted, expectRow } from './digits.ts';

const air: StillGas = { gamma: 1.4, gasConstant: 287, temperature: 293, pressure: 101325 };
/** Air at 20 deg C: sound speed 343.2021 m/s. */
const air20: StillGas = { ...air, temperature: 293.15 };

describe('simple wave', () => {
  // Blair, Design and Simulation of Two-Stroke Engines (1996), ch. 2 gives the example (0.8 and 1.2, 25 mm bore, F = 0.000491 m2);
  // recomputed unrounded: p/p0, X, u, alpha, T, rho, mass flow.
  it.each([
    '0.5 0.905724 -161.738 149.029 240.358 0.73442 -0.05832',
    '0.7 0.950323 -85.225 240.845 264.612 0.93395 -0.03908',
    '0.8 0.968625 -53.826 278.523 274.903 1.02741 -0.027153',
    '0.9 0.985061 -25.629 312.360 284.311 1.11759 -0.014063',
    '1.1 1.013709 23.519 371.336 301.088 1.28983 0.014894',
    '1.2 1.026388 45.271 397.439 308.667 1.37254 0.030509',
    '1.3 1.038192 65.521 421.739 315.808 1.45330 0.046754',
    '1.5 1.059634 102.306 465.882 328.988 1.60971 0.080859',
    '2.0 1.104090 178.573 557.402 357.171 1.97692 0.173335',
    '3.0 1.169931 291.528 692.948 401.040 2.64100 0.378034',
  ])('carries the textbook example: %s', (row) => {
    const ratio = Number(row.split(' ')[0]);
    const s = simpleWave(air, ratio);
    const a0 = restSoundSpeed(air);
    expectRow(
      [
        ratio,
        s.soundSpeed / a0,
        s.velocity,
        s.propagation,
        s.temperature,
        s.density,
        s.density * s.velocity * 0.000491,
      ],
      row,
    );
    expect(s.pressure / (s.density * 287 * s.temperature)).toBeCloseTo(1, 12);
    expect(s.propagation).toBeCloseTo(s.velocity + s.soundSpeed, 9);
  });

  it('states the rest gas as in the example', () => {
    expectPrinted(restSoundSpeed(air), '343.1143');
    expectPrinted(simpleWave(air, 1).density, '1.204945');
  });

  it('becomes sound when small: u = dp/(rho0 a0)', () => {
    const s = simpleWave(air, 1 + 1e-6);
    expect((s.velocity * 1.204945 * 343.1143) / 0.101325).toBeCloseTo(1, 5);
  });

  // Superposition of opposed waves after Blair (1996), ch. 2; recomputed: p/p0, u, Mach number, characteristic speeds.
  it.each([
    [1.2, 0.8, '0.965610 99.0966 0.29026 440.500 -242.307'],
    [1.2, 1.2, '1.433350 0 0 361.223 -361.223'],
    [0.8, 0.8, '0.635314 0 0 321.584 -321.584'],
    [1.5, 0.7, '1.071815 187.5312 0.54117 534.062 -158.999'],
  ] as const)('superposes waves of %s and %s', (right, left, row) => {
    const s = superpose(air, right, left);
    expectRow(
      [
        s.pressure / 101325,
        s.velocity,
        s.velocity / s.soundSpeed,
        s.rightCharacteristic,
        s.leftCharacteristic,
      ],
      row,
    );
  });
});

describe('shock formation', () => {
  // Envelope of the characteristics at the leading edge (Whitham, Linear and Nonlinear Waves, ch. 2, from memory); air at
  // 20 deg C, distances for overpressures 0.1, 0.2, 0.5, 1.0.
  it.each([
    [1e-3, '1.27452 0.63726 0.25490 0.12745'],
    [2e-3, '2.54904 1.27452 0.50981 0.25490'],
    [3e-3, '3.82356 1.91178 0.76471 0.38236'],
  ] as const)('of a half sine of %s s sent in', (duration, row) => {
    expectRow(
      [0.1, 0.2, 0.5, 1].map((d) => halfSineShockDistance(air20, d, duration)),
      row,
    );
  });

  it('of a released half sine, by the formula and by the slope of the characteristics', () => {
    const t = halfSineShockTime(air20, 0.5, 1);
    expectPrinted(t * 1e3, '2.164098');
    expectPrinted(t * restSoundSpeed(air20), '0.74272');
    const released = releasedShockTime(
      air20,
      (x) => (x > 0 && x < 1 ? 1 + 0.5 * Math.sin(Math.PI * x) : 1),
      0,
      1,
      200000,
    );
    expect(released / t).toBeCloseTo(1, 4);
  });

  it('of a half sine sent in, by the least alpha squared over its rate', () => {
    const speed = (t: number) => simpleWave(air20, 1 + 0.5 * Math.sin((Math.PI * t) / 2e-3)).propagation;
    let nearest = Number.POSITIVE_INFINITY;
    for (let i = 0; i < 1000; i += 1) {
      const t = i * 1e-6;
      nearest = Math.min(nearest, speed(t) ** 2 / ((speed(t + 1e-9) - speed(t)) / 1e-9));
    }
    expect(nearest / halfSineShockDistance(air20, 0.5, 2e-3)).toBeCloseTo(1, 4);
  });

  it('never, of an expansion that only spreads', () => {
    expect(releasedShockTime(air20, (x) => 1.5 + 0.4 * Math.tanh(x), -3, 3)).toBe(Number.POSITIVE_INFINITY);
  });

  it('of a harmonic wave agrees with the half sine when small', () => {
    const a0 = restSoundSpeed(air20);
    const duration = 2e-3;
    const overpressure = 1e-4;
    const byPressure = halfSineShockDistance(air20, overpressure, duration);
    expect(
      harmonicShockDistance(air20, (overpressure * a0) / 1.4, Math.PI / duration) / byPressure,
    ).toBeCloseTo(1, 12);
  });

  // Landau and Lifshitz, section 102: dp/p0 = 0.2 at the head, 0.5 m long, 3 m of travel.
  it('and decay of a weak triangular pulse', () => {
    const start = { length: 0.5, velocity: (0.2 * restSoundSpeed(air20)) / 1.4 };
    const after = decayedPulse(1.4, start, 3 / restSoundSpeed(air20));
    expectRow([after.velocity / start.velocity, after.length], '0.70211 0.71214');
    expect(after.velocity * after.length).toBeCloseTo(start.velocity * start.length, 10);
  });
});

describe('simple wave over place and time', () => {
  const hump = (x: number) => 1 + 0.3 * Math.exp(-((x / 0.2) ** 2));

  it('carries each state along its own straight characteristic', () => {
    const t = 0.8 * releasedShockTime(air, hump, -1, 1);
    for (const foot of [-0.4, -0.1, 0, 0.05, 0.2, 0.5]) {
      const sent = simpleWave(air, hump(foot));
      const arrived = releasedWave(air, hump, [1, 1.3], foot + sent.propagation * t, t);
      expect(arrived.pressure / sent.pressure).toBeCloseTo(1, 10);
    }
    expect(releasedWave(air, hump, [1, 1.3], 0.1, 0).pressure).toBeCloseTo(101325 * hump(0.1), 6);
  });

  it('solves the Euler equations: mass and momentum within the truncation of a central difference', () => {
    const t = 0.5 * releasedShockTime(air, hump, -1, 1);
    const at = (x: number, time: number) => releasedWave(air, hump, [1, 1.3], x, time);
    const dx = 1e-4;
    const dt = 1e-7;
    for (const x of [0.1, 0.3, 0.4]) {
      const [l, r, b, a] = [at(x - dx, t), at(x + dx, t), at(x, t - dt), at(x, t + dt)];
      const mass = [
        (a.density - b.density) / (2 * dt),
        (r.density * r.velocity - l.density * l.velocity) / (2 * dx),
      ];
      const momentum = [
        (a.density * a.velocity - b.density * b.velocity) / (2 * dt),
        (r.density * r.velocity ** 2 + r.pressure - l.density * l.velocity ** 2 - l.pressure) / (2 * dx),
      ];
      for (const [time = 0, flux = 0] of [mass, momentum]) expect(time / -flux).toBeCloseTo(1, 3);
    }
  });

  it('arrives from an end with what was sent, at the time its speed tells', () => {
    const sent = (t: number) => 1 + 0.4 * Math.sin((Math.PI * t) / 2e-3) ** 2;
    for (const tau of [0.2e-3, 1e-3, 1.7e-3]) {
      const state = simpleWave(air, sent(tau));
      const arrived = sentWave(air, sent, 0.15, tau + 0.15 / state.propagation);
      expect(arrived.pressure / state.pressure).toBeCloseTo(1, 10);
    }
    expect(sentWave(air, sent, 1, 1e-3).velocity).toBe(0);
  });
});

describe('root between two ends', () => {
  it('takes few evaluations where the function is smooth: bisection alone would take 50', () => {
    const cases = [
      [(x: number) => Math.cos(x) - x, 0, 2, 0.7390851332151607],
      [(x: number) => x ** 7 - 0.3, 0, 2, 0.3 ** (1 / 7)],
      [(x: number) => Math.exp(-x) - 0.01, -1, 30, Math.log(100)],
    ] as const;
    for (const [f, low, high, root] of cases) {
      let evaluations = 0;
      const counted = (x: number) => {
        evaluations += 1;
        return f(x);
      };
      expect(rootBetween(counted, low, high)).toBeCloseTo(root, 13);
      expect(evaluations).toBeLessThan(18);
    }
  });

  it('finds roots to the last digits, and refuses a bracket without one', () => {
    expect(rootBetween((x) => x * x - 2, 0, 5)).toBeCloseTo(Math.SQRT2, 15);
    expect(rootBetween((x) => (x - 1) ** 9, -4, 7)).toBeCloseTo(1, 2);
    expect(rootBetween((x) => Math.atan(x - 3e5), 0, 1e9)).toBeCloseTo(3e5, 8);
    expect(() => rootBetween((x) => x * x + 1, -1, 1)).toThrow(RangeError);
  });
});
