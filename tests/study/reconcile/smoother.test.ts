/**
 * Ring: exact solution. On a linear model with normal errors the answer is known in closed form (Kalman; any text on estimation):
 * covariance P = (I + GᵀG)⁻¹, mean P Gᵀ d, for scores N(0, I) and data in units of their errors.
 */

import { inv, multiply, transpose } from 'mathjs';
import { describe, expect, test } from 'vitest';
import { ALPHAS, assimilate, trusted } from '../../../src/study/reconcile/smoother.ts';
import { randomSource } from '../../../src/study/search/random.ts';

interface Problem {
  readonly G: readonly (readonly number[])[];
  readonly truth: readonly number[];
  readonly data: readonly number[];
}

const applied = (G: Problem['G'], z: readonly number[]): number[] =>
  G.map((row) => row.reduce((sum, g, k) => sum + g * z[k]!, 0));

/** Inputs of which the first `active` count, each less than the one before. */
function linear(seed: number, inputs: number, active: number, data: number): Problem {
  const random = randomSource(seed, 1);
  const G = Array.from({ length: data }, () =>
    Array.from({ length: inputs }, (_, k) => (k < active ? 0.6 * random.normal() * Math.exp(-k / 5) : 0)),
  );
  const truth = Array.from({ length: inputs }, () => random.normal());
  return { G, truth, data: applied(G, truth).map((value) => value + random.normal()) };
}

function exact({ G, data }: Problem): { readonly mean: number[]; readonly sd: number[] } {
  const n = G[0]!.length;
  const square = multiply(transpose(G as number[][]), G as number[][]) as number[][];
  const P = inv(square.map((row, i) => row.map((value, j) => value + (i === j ? 1 : 0)))) as number[][];
  const right = Array.from({ length: n }, (_, k) => G.reduce((sum, row, j) => sum + row[k]! * data[j]!, 0));
  return { mean: multiply(P, right) as number[], sd: P.map((row, k) => Math.sqrt(row[k]!)) };
}

function smoothed({ G, data }: Problem, members: number, seed: number) {
  const random = randomSource(seed, 2);
  let z: readonly (readonly number[])[] = Array.from({ length: members }, () =>
    G[0]!.map(() => random.normal()),
  );
  let stretched = 1;
  for (const [step, alpha] of ALPHAS.entries()) {
    const moved = assimilate({
      z,
      predicted: z.map((row) => applied(G, row)),
      data,
      alpha,
      random: randomSource(seed, 3, step),
    });
    z = moved.z;
    stretched *= moved.stretched;
  }
  const mean = z[0]!.map((_, k) => z.reduce((sum, row) => sum + row[k]!, 0) / members);
  const sd = mean.map((middle, k) =>
    Math.sqrt(z.reduce((sum, row) => sum + (row[k]! - middle) ** 2, 0) / (members - 1)),
  );
  return { z, mean, sd, stretched };
}

test('the factors of the steps count the data once', () => {
  expect(ALPHAS.reduce((sum, alpha) => sum + 1 / alpha, 0)).toBeCloseTo(1, 12);
});

test('with many members mean and spread are those of the closed form', () => {
  const problem = linear(5, 12, 6, 30);
  const { mean, sd } = exact(problem);
  const found = smoothed(problem, 2000, 5);
  for (const [k, value] of mean.entries()) {
    // Means of 2000 members are known to 2 % of a spread, spreads to 1.6 %; four of these.
    expect(Math.abs(found.mean[k]! - value) / sd[k]!).toBeLessThan(0.1);
    expect(Math.abs(found.sd[k]! / sd[k]! - 1)).toBeLessThan(0.07);
  }
  expect(found.stretched).toBeLessThan(1.01);
});

describe('with 64 members and 40 inputs, most of which the data do not see', () => {
  const runs = Array.from({ length: 6 }, (_, k) => {
    const problem = linear(k + 1, 40, 12, 50);
    return { problem, exact: exact(problem), found: smoothed(problem, 64, k + 1) };
  });
  const mean = (values: readonly number[]): number =>
    values.reduce((sum, value) => sum + value, 0) / values.length;

  test('means are as near to the truth as those of the closed form, to a tenth of a spread', () => {
    const miss = (of: (run: (typeof runs)[number]) => readonly number[]): number =>
      Math.sqrt(mean(runs.flatMap((run) => of(run).map((value, k) => (value - run.problem.truth[k]!) ** 2))));
    expect(miss(({ found }) => found.mean)).toBeLessThan(miss((run) => run.exact.mean) + 0.1);
  });

  test('spreads are those of the closed form in the mean, neither too sure nor as wide as before', () => {
    const ratio = mean(
      runs.flatMap(({ found, exact: { sd } }) => found.sd.map((value, k) => value / sd[k]!)),
    );
    expect(ratio).toBeGreaterThan(0.93);
    expect(ratio).toBeLessThan(1.12);
    // Without it false correlations would take some per cent of every spread.
    expect(mean(runs.map(({ found }) => found.stretched))).toBeGreaterThan(1.01);
  });

  test('nine in ten of the truths lie between 5 and 95 per cent', () => {
    const held = runs.flatMap(({ problem: { truth }, found: { z } }) =>
      truth.map((value, k) => {
        const column = z.map((row) => row[k]!).toSorted((a, b) => a - b);
        return value >= column[3]! && value <= column[60]! ? 1 : 0;
      }),
    );
    // 240 truths: two standard deviations are 4 %.
    expect(mean(held)).toBeGreaterThan(0.84);
    expect(mean(held)).toBeLessThan(0.96);
  });
});

test('a correlation that chance gives is not trusted, a perfect one is', () => {
  expect(trusted(1 / 63, 64)).toBe(0);
  expect(trusted(0, 64)).toBe(0);
  expect(trusted(1, 64)).toBe(1);
  expect(trusted(0.5, 64)).toBeCloseTo(1 - 0.5 / (62 * 0.5), 12);
});
