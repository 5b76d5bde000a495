/** Reed petals against the Euler-Bernoulli cantilever. Ring: exact solution. */

import { describe, expect, test } from 'vitest';
import { CLOCK, newClock, petalFrequency, type ReedPetals, ReedValve } from '../../solver/index.ts';
import { rootBetween } from '../../src/verify/exact/root.ts';

// A carbon petal of 0.4 mm.
const PETALS: ReedPetals = {
  count: 6,
  width: 0.02,
  length: 0.036,
  thickness: 0.4e-3,
  density: 1550,
  modulus: 60e9,
  stop: 8e-3,
  damping: 0,
  openSides: 1,
  cageArea: 9e-4,
  discharge: 0.7,
};

/** Moves the petals over dt [s] under a pressure difference [Pa]. */
function move(reed: ReedValve, dt: number, difference: number): void {
  clock[CLOCK.dt] = dt;
  reed.advance(clock, Float64Array.of(difference));
}
const clock = newClock();

describe('reed petals', () => {
  test('ring at the first bending frequency of a clamped strip', () => {
    // cos(b) cosh(b) = -1 (any text on vibration), omega = (b/L)^2 sqrt(E I/(rho A)).
    const b = rootBetween((x) => Math.cos(x) * Math.cosh(x) + 1, 1.5, 2.5);
    const { modulus, thickness, density, length } = PETALS;
    const omega = (b / length) ** 2 * Math.sqrt((modulus * thickness ** 2) / (12 * density));
    expect(petalFrequency(PETALS) / omega).toBeCloseTo(1, 7);
  });

  test('swing at that frequency and about their static lift, which is within 2 % of the exact one', () => {
    const reed = new ReedValve(PETALS);
    const difference = 1000;
    const dt = 1e-7;
    const lifts: number[] = [];
    const period = (2 * Math.PI) / petalFrequency(PETALS);
    for (let t = 0; t < 0.9 * period; t += dt) {
      move(reed, dt, difference);
      lifts.push(reed.lift);
    }
    const top = lifts.indexOf(Math.max(...lifts));
    expect((top * dt) / (0.5 * period)).toBeCloseTo(1, 3);
    // Tip of a clamped strip under uniform pressure: p L^4/(8 E I) with I = t^3/12 per width.
    const exact = (1.5 * difference * PETALS.length ** 4) / (PETALS.modulus * PETALS.thickness ** 3);
    expect(Math.abs(lifts[top]! / 2 / exact - 1)).toBeLessThan(0.02);
  });

  test('open the curtain of their tip and of the sides that flow', () => {
    // The side's area is the lift times the integral of the mode shape, sin and sinh combined as in any text on vibration.
    const b = rootBetween((x) => Math.cos(x) * Math.cosh(x) + 1, 1.5, 2.5);
    const sigma = (Math.sinh(b) - Math.sin(b)) / (Math.cosh(b) + Math.cos(b));
    const shape = (x: number): number =>
      Math.cosh(b * x) - Math.cos(b * x) - sigma * (Math.sinh(b * x) - Math.sin(b * x));
    const n = 20_000;
    let sum = 0;
    for (let i = 0; i < n; i++) sum += shape((i + 0.5) / n) / n;
    const mean = sum / shape(1);
    for (const openSides of [0, 1, 2]) {
      const reed = new ReedValve({ ...PETALS, openSides });
      reed.lift = 1e-3;
      reed.set();
      const curtain = 6 * 1e-3 * (0.02 + openSides * mean * 0.036);
      expect(reed.areaIn / (0.7 * curtain)).toBeCloseTo(1, 5);
    }
  });

  test('rest on their seat and on their stop', () => {
    const reed = new ReedValve(PETALS);
    move(reed, 1e-5, -5e3);
    expect(reed.lift).toBe(0);
    for (let step = 0; step < 1000; step++) move(reed, 1e-5, 8e4);
    expect(reed.lift).toBe(PETALS.stop);
    reed.set();
    // Wide open, the cage limits the flow.
    expect(reed.areaIn).toBeCloseTo(0.7 * 9e-4, 12);
    for (let step = 0; step < 1000; step++) move(reed, 1e-5, -8e4);
    reed.set();
    expect(reed.areaIn).toBe(0);
  });
});
