/** Ring: identity. Parts of a reconciliation: thinning, offsets, what the model may be off by. */

import { describe, expect, test } from 'vitest';
import { solveLower } from '../../../src/study/ensemble/correlations.ts';
import { errorCovariance, likeliestScale } from '../../../src/study/reconcile/discrepancy.ts';
import { bestOffset, turnAt } from '../../../src/study/reconcile/predicted.ts';
import type { DataGroup } from '../../../src/study/reconcile/question.ts';
import { MOST_SPEEDS, thinned } from '../../../src/study/reconcile/thinned.ts';
import { randomSource } from '../../../src/study/search/random.ts';

const point = (rpm: number, torque: number, line = 2) => ({
  rpm,
  torque,
  error: 0.02 * torque,
  file: 'dyno.csv',
  line,
});

describe('a curve', () => {
  test('of few speeds stays as it is, runs at one speed being one', () => {
    const few = [point(9000, 18), point(9500, 19), point(9500, 20), point(10_000, 21)];
    expect(thinned(few).map(({ rpm, torque }) => [rpm, torque])).toEqual([
      [9000, 18],
      [9500, 19.5],
      [10_000, 21],
    ]);
  });

  test('of many is thinned to means that lie on it', () => {
    const line = (rpm: number): number => 10 + rpm / 1000;
    const many = thinned(Array.from({ length: 900 }, (_, k) => point(6000 + 7 * k, line(6000 + 7 * k))));
    expect(many).toHaveLength(MOST_SPEEDS);
    for (const { rpm, torque, error } of many) {
      expect(Math.abs(torque - line(rpm))).toBeLessThan(0.001);
      expect(error / torque).toBeCloseTo(0.02, 9);
    }
  });
});

test('a trace is laid upon a prediction by the angle at which it lies best', () => {
  const turn = Array.from({ length: 180 }, (_, k) => Math.exp(-(((2 * k - 240) / 20) ** 2)));
  const shifted = turn.map((_, k) => turnAt(turn, 2 * k - 46));
  expect(bestOffset(shifted, turn)).toBe(-46);
  expect(turnAt(turn, 239) / Math.exp(-((1 / 20) ** 2))).toBeCloseTo(1, 2);
  expect(turnAt(turn, -120)).toBe(turnAt(turn, 240));
});

describe('what the model is off by', () => {
  const speeds = [8000, 9000, 10_000, 11_000, 12_000];
  const group = (values: readonly number[]): DataGroup => ({
    kind: 'torque',
    name: 'torque',
    rpm: null,
    at: null,
    data: values.map((value, k) => ({
      x: speeds[k]!,
      value,
      error: 0.4,
      stand: { file: '', line: 1 },
      speed: k,
      watch: 0,
    })),
    loose: null,
    fixed: 1,
  });
  const members = Array.from({ length: 64 }, (_, n) => {
    const random = randomSource(n, 5);
    const [level, tilt] = [random.normal(), random.normal()];
    return speeds.map((_, k) => 20 + 0.8 * level + 0.3 * tilt * (k - 2));
  });

  test('stays as usual where the data lie among the members', () => {
    expect(likeliestScale(group([19.2, 19.4, 19.5, 19.7, 19.8]), members)).toBe(1);
  });

  test('is raised where no member comes near', () => {
    expect(likeliestScale(group([28, 28, 28, 28, 28]), members)).toBeGreaterThan(6);
    // A wave over speed that level and tilt do not make.
    expect(likeliestScale(group([20, 23, 20, 17, 20]), members)).toBeGreaterThan(2);
  });

  test('goes together at neighbouring speeds, beside measuring errors that do not', () => {
    const C = errorCovariance(group([20, 20, 20, 20, 20]), 2);
    expect(C[0]![0]).toBeCloseTo(0.4 ** 2 + (2 * 0.015 * 20) ** 2, 12);
    expect(C[0]![1]! / (C[0]![0]! - 0.4 ** 2)).toBeCloseTo(Math.exp(-0.5), 12);
    expect(C[1]![3]).toBe(C[3]![1]);
  });
});

test('a triangle is solved from the top', () => {
  expect(solveLower([[2], [1, 4]], [6, 11])).toEqual([3, 2]);
});
