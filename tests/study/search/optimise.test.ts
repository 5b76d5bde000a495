/** The searches on standard functions with known least values (Hansen et al., COCO/BBOB 2009, definitions in the unit cube here). */

import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { cmaEs } from '../../../src/study/search/cma-es.ts';
import { randomSource } from '../../../src/study/search/random.ts';
import { minimise, type Point, type Search, type SearchOutcome } from '../../../src/study/search/search.ts';
import { symmetricEigen } from '../../../src/study/search/symmetric-eigen.ts';
import { openJournal } from '../../../src/study/work/journal.ts';
import { nelderMead } from './nelder-mead.ts';

type Landscape = (point: Point) => number;

/** Least value 0 at 0.3 in every quantity. */
const sphere: Landscape = (point) => point.reduce((sum, x) => sum + (x - 0.3) ** 2, 0);
/** A sphere squeezed a thousandfold along one diagonal direction in each plane: least value 0 at 0.3. */
const ellipsoid: Landscape = (point) =>
  point.reduce(
    (sum, x, i) =>
      sum + 10 ** ((6 * i) / (point.length - 1)) * (x - 0.3 + 0.5 * ((point[i - 1] ?? 0.3) - 0.3)) ** 2,
    0,
  );
/** Rosenbrock's valley over [-2, 2]: least value 0 at 1, which is 0.75 of the range. */
const rosenbrock: Landscape = (point) => {
  const x = point.map((share) => 4 * share - 2);
  let sum = 0;
  for (let i = 0; i + 1 < x.length; i += 1) {
    sum += 100 * ((x[i + 1] as number) - (x[i] as number) ** 2) ** 2 + (1 - (x[i] as number)) ** 2;
  }
  return sum;
};
/** Rastrigin's egg-box over [-3, 3] with its middle moved to 0.6: least value 0, many local ones of 1 and more. */
const rastrigin: Landscape = (point) =>
  point.reduce((sum, share) => {
    const x = 6 * (share - 0.6);
    return sum + x * x + 10 * (1 - Math.cos(2 * Math.PI * x));
  }, 0);
/** The least value in the cube lies on its border: at 0 in the first quantity, 0.3 in the others. */
const bordered: Landscape = (point) => 3 * (point[0] as number) + sphere(point);

const cma = (n: number, seed: number, more: Partial<Parameters<typeof cmaEs>[0]> = {}): Search =>
  cmaEs({
    start: new Array<number>(n).fill(0.5),
    sigma: 0.3,
    seed,
    mostEvaluations: 20_000,
    valueTolerance: 1e-12,
    pointTolerance: 1e-9,
    ...more,
  });

const simplex = (n: number): Search =>
  nelderMead({
    start: new Array<number>(n).fill(0.5),
    edge: 0.2,
    mostEvaluations: 20_000,
    valueTolerance: 1e-13,
    pointTolerance: 1e-6,
  });

const run = (search: Search, landscape: Landscape): Promise<SearchOutcome> =>
  minimise(search, async (points) => points.map(landscape));

describe('CMA-ES', () => {
  test.each([
    ['sphere', sphere, 6, 1500],
    ['ellipsoid', ellipsoid, 6, 4000],
    ['Rosenbrock', rosenbrock, 6, 6000],
    ['border', bordered, 6, 2500],
  ] as const)('finds the least value of %s', async (_, landscape, n, mostEvaluations) => {
    for (const seed of [1, 2, 3]) {
      const { best, evaluations } = await run(cma(n, seed, { mostEvaluations }), landscape);
      const least = landscape === bordered ? 0.09 : 0;
      expect((best?.value ?? Number.NaN) - least).toBeLessThan(1e-9);
      expect(evaluations).toBeLessThanOrEqual(mostEvaluations);
    }
  });

  test('with a large population finds the deepest hollow of Rastrigin', async () => {
    let found = 0;
    for (let seed = 1; seed <= 10; seed += 1) {
      const { best } = await run(cma(4, seed, { population: 200 }), rastrigin);
      if ((best?.value ?? 1) < 1e-8) found += 1;
    }
    // Hansen's own package cma (Python, pycma) with the same start, step, bounds and population: 20 of 20 seeds; a
    // population of 20 finds it in 2 of 20, so this one is not found by luck.
    expect(found).toBeGreaterThanOrEqual(9);
  });

  test('goes round drafts that fail', async () => {
    const holed: Landscape = (point) => ((point[1] as number) > 0.55 ? Number.NaN : sphere(point));
    const { best } = await run(cma(3, 5), holed);
    expect(best?.value).toBeLessThan(1e-9);
  });

  test('never asks outside the cube', async () => {
    await minimise(cma(4, 2), async (points) => {
      for (const point of points) for (const x of point) expect(x >= 0 && x <= 1).toBe(true);
      return points.map(bordered);
    });
  });
});

describe('Nelder-Mead', () => {
  test.each([
    ['sphere', sphere, 3, 0],
    ['Rosenbrock', rosenbrock, 2, 0],
    ['Rosenbrock', rosenbrock, 4, 0],
    ['border', bordered, 3, 0.09],
    ['one quantity', sphere, 1, 0],
  ] as const)('finds the least value of %s', async (_, landscape, n, least) => {
    const { best, end } = await run(simplex(n), landscape);
    expect((best?.value ?? Number.NaN) - least).toBeLessThan(1e-9);
    expect(end).toContain('do not change');
  });

  test('stops when its evaluations are used up', async () => {
    const settings = {
      start: [0.5, 0.5],
      edge: 0.1,
      mostEvaluations: 30,
      valueTolerance: 0,
      pointTolerance: 0,
    };
    const { evaluations } = await run(nelderMead(settings), rosenbrock);
    expect(evaluations).toBeGreaterThanOrEqual(30);
    expect(evaluations).toBeLessThanOrEqual(32);
  });
});

describe('a search broken off at any batch and resumed from its journal', () => {
  test.each([
    ['CMA-ES', () => cma(3, 9, { mostEvaluations: 300 })],
    ['Nelder-Mead', () => simplex(3)],
  ])('%s ends as an unbroken one and values no point twice', async (_, makeSearch) => {
    const unbroken = await run(makeSearch(), rosenbrock);
    const path = join(mkdtempSync(join(tmpdir(), 'echocone-search-')), 'journal.jsonl');
    let valued = 0;
    const attempt = async (budget: number): Promise<SearchOutcome> => {
      const known = new Map<string, number>();
      const of = { kind: 'search', name: 'rosenbrock', program: 'none', what: null };
      const journal = openJournal<number>(path, of, (draft, value) => void known.set(draft, value));
      let left = budget;
      try {
        return await minimise(makeSearch(), async (points, batch) =>
          points.map((point, index) => {
            const draft = `${batch}.${index}`;
            const before = known.get(draft);
            if (before !== undefined) return before;
            left -= 1;
            if (left < 0) throw new Error('killed');
            valued += 1;
            const value = rosenbrock(point);
            journal.append(draft, value);
            return value;
          }),
        );
      } finally {
        journal.close();
      }
    };
    for (const budget of [1, 5, 17, 40]) await expect(attempt(budget)).rejects.toThrow('killed');
    expect(await attempt(Number.POSITIVE_INFINITY)).toEqual(unbroken);
    expect(valued).toBe(unbroken.evaluations);
  });
});

test('eigenvectors rebuild the matrix and are orthonormal', () => {
  const random = randomSource(4);
  const n = 12;
  const half = Array.from({ length: n }, () => Array.from({ length: n }, () => random.normal()));
  const matrix = half.map((row) =>
    half.map((other) => row.reduce((sum, x, k) => sum + x * (other[k] as number), 0)),
  );
  const { values, vectors } = symmetricEigen(matrix);
  for (let i = 0; i < n; i += 1) {
    for (let j = 0; j < n; j += 1) {
      const rebuilt = values.reduce(
        (sum, d, k) => sum + d * (vectors[i]?.[k] as number) * (vectors[j]?.[k] as number),
        0,
      );
      const product = vectors.reduce((sum, row) => sum + (row[i] as number) * (row[j] as number), 0);
      // Round-off of a dozen terms of size up to 50.
      expect(Math.abs(rebuilt - (matrix[i]?.[j] as number))).toBeLessThan(1e-12 * 50);
      expect(Math.abs(product - (i === j ? 1 : 0))).toBeLessThan(1e-13);
    }
  }
});
