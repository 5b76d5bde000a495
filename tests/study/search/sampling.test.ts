/** Full grid, Latin hypercube and Sobol's sequence. */

import { describe, expect, test } from 'vitest';
import { type Axis, pointsOf, sampleOver, valueAtShare, valueCount } from '../../../src/study/search/axis.ts';
import { fullGrid } from '../../../src/study/search/full-grid.ts';
import { latinHypercube } from '../../../src/study/search/latin-hypercube.ts';
import { mostSobolDimensions, sobolSequence } from '../../../src/study/search/sobol.ts';

const lengths: Axis = { kind: 'range', from: 0.1, to: 0.3, step: 0.1 };
const stingers: Axis = { kind: 'list', values: [0.022, 0.024] };

describe('full grid', () => {
  test('has every combination once, the last axis fastest', () => {
    const points = [...pointsOf(fullGrid([lengths, stingers]))];
    expect(points).toEqual([
      [0.1, 0.022],
      [0.1, 0.024],
      [0.2, 0.022],
      [0.2, 0.024],
      [0.3, 0.022],
      [0.3, 0.024],
    ]);
  });

  test('a step that does not divide the range ends before it', () => {
    expect(valueCount({ kind: 'range', from: 0, to: 1, step: 0.3 })).toBe(4);
    expect([...pointsOf(fullGrid([{ kind: 'range', from: 0, to: 1, step: 0.4 }]))]).toEqual([
      [0],
      [0.4],
      [0.8],
    ]);
  });

  test('a grid of 10^12 points is no larger than one of ten', () => {
    const grid = fullGrid(
      Array.from({ length: 6 }, (): Axis => ({ kind: 'range', from: 0, to: 99, step: 1 })),
    );
    expect(grid.count).toBe(1e12);
    expect(grid.at(123_456_789_012)).toEqual([12, 34, 56, 78, 90, 12]);
  });

  test('needs steps', () => {
    expect(() => fullGrid([{ kind: 'range', from: 0, to: 1, step: null }])).toThrow(RangeError);
  });
});

describe('Latin hypercube', () => {
  test('has one point in each slice of each axis', () => {
    const sample = latinHypercube(5, 101, 3);
    for (let axis = 0; axis < 5; axis += 1) {
      const slices = [...pointsOf(sample)].map((point) => Math.floor((point[axis] as number) * 101));
      expect([...slices].sort((a, b) => a - b)).toEqual(Array.from({ length: 101 }, (_, slice) => slice));
    }
  });

  test('is the same for a seed, by number or in order, and another for another', () => {
    const sample = latinHypercube(3, 40, 1);
    const again = latinHypercube(3, 40, 1);
    expect(again.at(17)).toEqual([...pointsOf(sample)][17]);
    expect(latinHypercube(3, 40, 2).at(17)).not.toEqual(sample.at(17));
  });

  test('has no correlation between axes beyond chance', () => {
    const points = [...pointsOf(latinHypercube(2, 1000, 11))];
    const r =
      points.reduce((sum, [x, y]) => sum + ((x as number) - 0.5) * ((y as number) - 0.5), 0) /
      1000 /
      (1 / 12);
    // Standard error of a correlation of 1000 independent pairs is 1/sqrt(1000).
    expect(Math.abs(r)).toBeLessThan(3 / Math.sqrt(1000));
  });
});

describe('Sobol', () => {
  test('gives the points of scipy 1.17 (qmc.Sobol(12, scramble=False, bits=32))', () => {
    const sample = sobolSequence(12, 1 << 14, null);
    expect(sample.at(0)).toEqual(new Array(12).fill(0));
    expect(sample.at(1)).toEqual(new Array(12).fill(0.5));
    expect(sample.at(2)).toEqual([0.75, 0.25, 0.25, 0.25, 0.75, 0.75, 0.25, 0.75, 0.75, 0.75, 0.75, 0.75]);
    expect(sample.at(10)).toEqual([
      0.9375, 0.0625, 0.6875, 0.1875, 0.3125, 0.5625, 0.1875, 0.1875, 0.1875, 0.5625, 0.4375, 0.8125,
    ]);
    expect(sample.at(33)).toEqual([
      0.546875, 0.765625, 0.203125, 0.046875, 0.640625, 0.421875, 0.296875, 0.171875, 0.484375, 0.546875,
      0.890625, 0.453125,
    ]);
    expect(sample.at(12345).map((x) => x * 2 ** 32)).toEqual([
      2752774144, 3493593088, 688652288, 2262564864, 3816030208, 252968960, 546570240, 486801408, 3443785728,
      1845231616, 319029248, 2571894784,
    ]);
  });

  test('shifted or not, each of 2^m equal slices of each axis holds one of 2^m points', () => {
    for (const seed of [null, 5]) {
      const points = [...pointsOf(sobolSequence(mostSobolDimensions, 256, seed))];
      for (let axis = 0; axis < mostSobolDimensions; axis += 1) {
        expect(new Set(points.map((point) => Math.floor((point[axis] as number) * 256))).size).toBe(256);
      }
    }
  });

  test('refuses more dimensions than it has numbers for', () => {
    expect(() => sobolSequence(mostSobolDimensions + 1, 8, 1)).toThrow(RangeError);
  });
});

test('a sample over axes gives each value of a list an equal share and keeps to steps and ranges', () => {
  const axes: Axis[] = [stingers, lengths, { kind: 'range', from: -2, to: 2, step: null }];
  const points = [...pointsOf(sampleOver(axes, sobolSequence(3, 96, 2)))];
  expect(points.filter(([stinger]) => stinger === 0.022)).toHaveLength(48);
  expect(new Set(points.map((point) => point[1]))).toEqual(new Set([0.1, 0.2, 0.3]));
  expect(points.every((point) => (point[2] as number) >= -2 && (point[2] as number) < 2)).toBe(true);
  expect(valueAtShare({ kind: 'range', from: 3, to: 3, step: null }, 0.9)).toBe(3);
});
