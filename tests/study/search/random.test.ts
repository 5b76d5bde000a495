/** The random source against published vectors and the moments it must have. */

import { expect, test } from 'vitest';
import { randomSource } from '../../../src/study/search/random.ts';

test('xoshiro128** filled by SplitMix64 gives the numbers of the reference C code', () => {
  // Blackman & Vigna's public-domain C code, compiled with gcc and run for seed 42.
  const random = randomSource(42);
  const first = Array.from({ length: 6 }, () => random.bits());
  expect(first).toEqual([1776835114, 4165204688, 17111135, 2317295270, 2792088233, 2554630222]);
  for (let skip = 0; skip < 1_000_000; skip += 1) random.bits();
  expect(random.bits()).toBe(1064685252);
});

test('streams of a seed differ', () => {
  const first = [
    randomSource(1),
    randomSource(1, 0),
    randomSource(1, 1),
    randomSource(1, 0, 1),
    randomSource(2),
  ];
  expect(new Set(first.map((random) => random.bits())).size).toBe(first.length);
});

test('uniform and normal numbers have their moments', () => {
  const random = randomSource(7);
  const count = 200_000;
  let mean = 0;
  let square = 0;
  let fourth = 0;
  for (let n = 0; n < count; n += 1) {
    const x = random.normal();
    mean += x / count;
    square += (x * x) / count;
    fourth += x ** 4 / count;
  }
  // Four standard errors: sd of the means of x, x^2, x^4 are 1, sqrt 2, sqrt 96 over sqrt count.
  const error = 4 / Math.sqrt(count);
  expect(Math.abs(mean)).toBeLessThan(error);
  expect(Math.abs(square - 1)).toBeLessThan(error * Math.SQRT2);
  expect(Math.abs(fourth - 3)).toBeLessThan(error * Math.sqrt(96));
  const counts = new Array<number>(6).fill(0);
  for (let n = 0; n < 60_000; n += 1) {
    const face = random.below(6);
    counts[face] = (counts[face] as number) + 1;
  }
  // Chi squared with 5 degrees of freedom exceeds 20.5 with probability 0.001; the generator is started alike each time.
  const chi = counts.reduce((sum, seen) => sum + (seen - 10_000) ** 2 / 10_000, 0);
  expect(chi).toBeLessThan(20.5);
});
