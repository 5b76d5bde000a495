/** The search along one quantity, on functions with a known least value. */

import { expect, test } from 'vitest';
import { lineSearch } from '../../../src/study/search/line-search.ts';
import { minimise } from '../../../src/study/search/search.ts';

const found = (of: (x: number) => number, mostEvaluations: number) =>
  minimise(lineSearch({ mostEvaluations, pointTolerance: 0.008 }), async (points) =>
    points.map(([x]) => of(x ?? Number.NaN)),
  );

test.each([0, 0.3, 0.487, 1])('finds the least value at %d', async (at) => {
  const { best, evaluations } = await found((x) => (x - at) ** 2, 40);
  expect(Math.abs((best?.point[0] ?? Number.NaN) - at)).toBeLessThanOrEqual(1 / 128 + 1e-12);
  expect(evaluations).toBeLessThanOrEqual(17);
});

test('keeps to what it may ask for, and survives what has no value', async () => {
  for (const most of [1, 2, 5, 9, 10, 12]) {
    const { evaluations } = await found((x) => (x < 0.5 ? Number.POSITIVE_INFINITY : x), most);
    expect(evaluations).toBeLessThanOrEqual(most);
    expect(evaluations).toBeGreaterThan(0);
  }
});
