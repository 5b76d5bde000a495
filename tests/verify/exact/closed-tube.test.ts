import { describe, expect, it } from 'vitest';
import {
  fanSoundSpeed,
  reflectedHead,
  wallPressure,
  wallSoundSpeed,
  wallTime,
} from '../../../src/verify/exact/closed-rarefaction.ts';
import { breakingTime, burgersWave, gamma3Tube } from '../../../src/verify/exact/gamma3-tube.ts';
import { expectPrinted, expectRow } from './digits.ts';

/**
 * Wall times of the reflected fan by a net of straight-chord characteristics, an independent witness. Left-running
 * characteristics j = 0..n carry equal steps of the fan's sound speed from the corner; the right-running ones start on the wall.
 */
function wallTimesByNet(n: number, lastFanSound: number, gamma: number): { sound: number; time: number } {
  const h = (gamma - 1) / 2;
  // lambda = a + hu = 1 on what comes from the undisturbed gas; beta_j = a - hu on the fan's characteristics, 2 a_j - 1.
  const beta = Array.from({ length: n + 1 }, (_, j) => 2 * (1 - ((1 - lastFanSound) * j) / n) - 1);
  const speeds = (lambda: number, b: number) => {
    const u = (lambda - b) / (2 * h);
    const a = 0.5 * (lambda + b);
    return { up: u + a, down: u - a };
  };
  // Points on the current right-running characteristic, one for each left-running one; the first: the reflected head.
  let row: { x: number; t: number }[] = [{ x: 0, t: 1 }];
  let lambda = 1;
  for (let j = 1; j <= n; j += 1) {
    const down = speeds(1, beta[j] ?? 0).down;
    const last = row[j - 1] ?? { x: 0, t: 1 };
    const up = 0.5 * (speeds(1, beta[j - 1] ?? 0).up + speeds(1, beta[j] ?? 0).up);
    // From the corner (1, 0) along the straight fan ray; from the last point along the mean slope.
    const t = (1 - last.x + up * last.t) / (up - down);
    row.push({ x: 1 + down * t, t });
  }
  for (let i = 1; i <= n; i += 1) {
    const before = row;
    const lambdaBefore = lambda;
    lambda = beta[i] ?? 0;
    row = [];
    for (let j = i; j <= n; j += 1) {
      const old = before[j - i + 1] ?? { x: 0, t: 0 };
      const b = beta[j] ?? 0;
      const down = 0.5 * (speeds(lambdaBefore, b).down + speeds(lambda, b).down);
      if (j === i) {
        row.push({ x: 0, t: old.t - old.x / down });
      } else {
        const last = row[j - i - 1] ?? { x: 0, t: 0 };
        const up = 0.5 * (speeds(lambda, beta[j - 1] ?? 0).up + speeds(lambda, b).up);
        const t = (old.x - last.x + up * last.t - down * old.t) / (up - down);
        row.push({ x: old.x + down * (t - old.t), t });
      }
    }
  }
  return { sound: beta[n] ?? 0, time: row[0]?.t ?? 0 };
}

describe('centred rarefaction off a closed end, gamma 1.4', () => {
  // Derived here: solution of the Euler-Poisson-Darboux equation. p_w/p0, t_w/t0.
  it.each([
    [1, '1 1'],
    [0.95, '0.698337 1.1709578'],
    [0.9, '0.478297 1.3946680'],
    [0.85, '0.320577 1.6934153'],
    [0.8, '0.209715 2.1014404'],
    [0.7, '0.082354 3.4957904'],
    [0.6, '0.027994 6.6049383'],
  ] as const)('the wall falls to %s of the sound speed', (a, row) => {
    const t = wallTime(a);
    expectRow([wallPressure(t), t], row);
    expect(wallSoundSpeed(t)).toBeCloseTo(a, 12);
  });

  it('agrees with a net of characteristics, extrapolated', () => {
    const coarse = wallTimesByNet(100, 0.9, 1.4);
    const fine = wallTimesByNet(200, 0.9, 1.4);
    expect(fine.sound).toBeCloseTo(0.8, 12);
    const limit = (4 * fine.time - coarse.time) / 3;
    // Second order: the coarse net errs four times as much.
    expect((coarse.time - limit) / (fine.time - limit)).toBeCloseTo(4, 6);
    expect(limit).toBeCloseTo(wallTime(0.8), 6);
  });

  it('takes the reflected head through the fan', () => {
    const head = reflectedHead(0.9, 1.4);
    expectRow([head.t, head.x], '1.371742 0.451303');
    expect(fanSoundSpeed(head.x, head.t, 1.4)).toBeCloseTo(0.9, 12);
    // Any gamma: the head runs at u + a of the fan it crosses.
    for (const gamma of [1.25, 1.4, 5 / 3]) {
      const [p, q] = [reflectedHead(0.85 + 1e-6, gamma), reflectedHead(0.85 - 1e-6, gamma)];
      expect((q.x - p.x) / (q.t - p.t)).toBeCloseTo((2 * 0.15) / (gamma - 1) + 0.85, 5);
    }
  });

  it('leaves the gas ahead of the fan and the wall before t0 at rest', () => {
    expect(fanSoundSpeed(0.2, 0.5, 1.4)).toBe(1);
    expect(wallPressure(0.99)).toBe(1);
  });
});

describe('tube of gamma 3', () => {
  const eps = 0.2;

  // Derived here: t, x, u, a, p.
  it.each([
    [0.5, 0.25, '0.11397669 1.00000000 1'],
    [0.5, 0.5, '0.19106038 1 1'],
    [0.5, 0.75, '0.17440830 1 1'],
    [1, 0, '0 0.82837392 0.56843297'],
    [1, 0.25, '0.05158529 0.85432414 0.62354532'],
    [1, 0.5, '0 1 1'],
    [1, 0.75, '-0.05158529 1.14567586 1.50378342'],
    [1, 1, '0 1.17162608 1.60830009'],
    [1.5, 0.25, '-0.19784518 1 1'],
    [1.5, 0.5, '-0.15128925 1 1'],
  ] as const)('t = %s, x = %s', (t, x, row) => {
    const s = gamma3Tube(x, t, eps);
    expectRow([s.velocity, s.soundSpeed, s.pressure], row);
  });

  it('breaks at the time told', () => expectPrinted(breakingTime(eps), '1.591549'));

  it('keeps mass and energy until then', () => {
    // The trapezoidal rule on a smooth even-periodic integrand converges faster than any power.
    const n = 400;
    for (const t of [0, 0.4, 0.9, 1.2]) {
      let mass = 0;
      let energy = 0;
      for (let i = 0; i <= n; i += 1) {
        const weight = (i === 0 || i === n ? 0.5 : 1) / n;
        const { velocity: u, soundSpeed: a } = gamma3Tube(i / n, t, eps);
        mass += weight * a;
        energy += weight * a * ((u * u) / 2 + (a * a) / 6);
      }
      expect(mass).toBeCloseTo(1, 10);
      expectPrinted(energy, '0.17666667');
    }
  });

  it('stays constant along straight characteristics, and solves its own equation to round-off', () => {
    for (const foot of [-0.9, -0.3, 0.1, 0.6]) {
      const w = 1 + eps * Math.cos(Math.PI * foot);
      for (const t of [0.3, 1, 1.5]) expect(burgersWave(foot + w * t, t, eps)).toBeCloseTo(w, 13);
    }
  });
});
