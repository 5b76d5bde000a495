/** Shares of variance against those of a sum that is known. Ring: exact solution. */

import { describe, expect, test } from 'vitest';
import { narrower, toldShares, worthMeasuring } from '../../../src/findings/width-drivers.ts';
import { correlationRatio, correlationRatioError } from '../../../src/study/search/correlation-ratio.ts';
import { randomSource } from '../../../src/study/search/random.ts';

describe('the correlation ratio', () => {
  test('of a sum of independent numbers is the share of their variances, and its error is its scatter', () => {
    const found = Array.from({ length: 60 }, (_, trial) => {
      const random = randomSource(trial, 7);
      const rows = Array.from({ length: 256 }, () => [random.normal(), random.normal()] as const);
      const column = rows.map(([a]) => a);
      const sums = rows.map(([a, b]) => a + b);
      return {
        share: correlationRatio(column, sums),
        error: correlationRatioError(column, sums) ?? Number.NaN,
      };
    });
    const mean = (of: (one: (typeof found)[number]) => number): number =>
      found.reduce((sum, one) => sum + of(one), 0) / found.length;
    const share = mean((one) => one.share);
    const scatter = Math.sqrt(mean((one) => (one.share - share) ** 2));
    // The means of the eight equal parts of a normal hold 0.9453 of its variance: 8 Σ (φ(z_i) - φ(z_(i+1)))². The mean of 60 that
    // scatter by 0.05 is known to 0.02, three times its error.
    expect(Math.abs(share - 0.5 * 0.9453)).toBeLessThan(0.02);
    // The scatter of 60 is known to a tenth of itself, the jackknife's error to a few hundredths.
    expect(mean((one) => one.error) / scatter).toBeGreaterThan(0.75);
    expect(mean((one) => one.error) / scatter).toBeLessThan(1.3);
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
    expect(found.likely).toBeNull();
    expect(worthMeasuring([])).toEqual({ edges: null, likely: null, torque: null, together: null });
    const unclear = worthMeasuring([of('works_to_rpm', [share('x', 0.24, 0.13), share('y', 0.1, 0.1)])]);
    expect([unclear.edges, unclear.likely?.path]).toEqual([null, 'x']);
  });
});
