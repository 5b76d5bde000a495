/** Shares of variance against those of a sum that is known. Ring: exact solution. */

import { describe, expect, test } from 'vitest';
import { narrower, toldShares, worthMeasuring } from '../../../src/findings/width-drivers.ts';
import { correlationRatio, correlationRatioError } from '../../../src/study/search/correlation-ratio.ts';
import { randomSource } from '../../../src/study/search/random.ts';

describe('the correlation ratio', () => {
  test('of a sum of independent numbers is the share of their variances, within its error', () => {
    let inside = 0;
    const trials = 40;
    for (let trial = 0; trial < trials; trial += 1) {
      const random = randomSource(trial, 7);
      const rows = Array.from({ length: 256 }, () => [random.normal(), random.normal()] as const);
      const sums = rows.map(([a, b]) => 2 * a + b);
      const column = rows.map(([a]) => a);
      const share = correlationRatio(column, sums);
      const error = correlationRatioError(column, sums) ?? Number.NaN;
      // Groups of equal numbers take some of the variance inside them: of eight of a normal some 5 %.
      if (Math.abs(share - 0.8 * 0.95) < 2 * error) inside += 1;
    }
    // Two standard errors hold 95 of 100.
    expect(inside / trials).toBeGreaterThan(0.8);
  });

  test('of what has no part in it is none', () => {
    const random = randomSource(3, 1);
    const column = Array.from({ length: 512 }, () => random.normal());
    const others = column.map(() => random.normal());
    expect(correlationRatio(column, others)).toBeLessThan(0.05);
    expect(correlationRatioError([1, 2, 3], [1, 2, 3])).toBeNull();
  });
});

describe('what to measure', () => {
  const share = (path: string, value: number, error = 0.02, together = '') => ({
    path,
    share: value,
    error,
    together,
  });

  test('known exactly, three quarters of the variance gone, a band is half as wide', () => {
    expect(narrower(0.75)).toBeCloseTo(0.5, 12);
    expect(narrower(1.2)).toBe(1);
    expect(narrower(-0.1)).toBe(0);
  });

  test('what is within its error is not told, and of inputs that go together one', () => {
    const shares = [
      share('a', 0.5, 0.05, 'wall'),
      share('b', 0.45, 0.05, 'wall'),
      share('c', 0.2, 0.15),
      share('d', 0.1),
    ];
    const told = toldShares({ answer: 'torque_nm', speed_rpm: 10000, count: 64, shares });
    expect(told.map(({ path }) => path)).toEqual(['a', 'd']);
  });

  test('for the edges the input on which both hang most', () => {
    const of = (
      answer: 'works_from_rpm' | 'works_to_rpm' | 'torque_nm',
      shares: ReturnType<typeof share>[],
    ) => ({
      answer,
      speed_rpm: null,
      count: 64,
      shares,
    });
    const found = worthMeasuring([
      of('works_from_rpm', [share('x', 0.4), share('y', 0.36)]),
      of('works_to_rpm', [share('y', 0.51)]),
      of('torque_nm', [share('z', 0.3), share('y', 0.21)]),
    ]);
    expect(found.edges).toEqual({ path: 'y', lower: expect.closeTo(0.2, 9), upper: expect.closeTo(0.3, 9) });
    expect(found.torque?.path).toBe('z');
    expect(found.together).toEqual({ paths: ['z', 'y'], narrower: expect.closeTo(0.3, 9) });
    expect(worthMeasuring([])).toEqual({ edges: null, torque: null, together: null });
  });
});
