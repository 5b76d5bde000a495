/** The normal distribution against tables, and what Sobol's sequence is made of. Ring: exact solution, identity. */

import { describe, expect, test } from 'vitest';
import { normalScore, normalShare } from '../../../src/study/search/normal.ts';
import { sobolSequence } from '../../../src/study/search/sobol.ts';
import { joeKuo } from '../../../src/study/search/sobol-numbers.ts';

describe('the normal distribution', () => {
  // Abramowitz & Stegun 1964, table 26.1, and for the far tail -log10 Q of table 26.2.
  test.each([
    [0, 0.5],
    [1, 0.841344746068543],
    [2, 0.977249868051821],
    [-1.64, 0.0505025834741],
  ])('below %d', (z, share) => expect(normalShare(z)).toBeCloseTo(share, 12));

  test('far out', () => {
    expect(-Math.log10(normalShare(-5))).toBeCloseTo(6.54265, 5);
    expect(-Math.log10(normalShare(-10))).toBeCloseTo(23.11805, 5);
  });

  test('backwards', () => {
    for (const z of [-7, -3.01, -3, -2.99, -0.5, 0, 1e-3, 2.5, 5])
      expect(normalScore(normalShare(z))).toBeCloseTo(z, 9);
    expect(() => normalScore(0)).toThrow(RangeError);
  });
});

/** Product of two polynomials over the field of two elements, modulo a third; bit k is the coefficient of x^k. */
function product(a: number, b: number, modulus: number, degree: number): number {
  let result = 0;
  for (let shifted = a, rest = b; rest > 0; rest >>>= 1) {
    if (rest & 1) result ^= shifted;
    shifted <<= 1;
    if (shifted & (1 << degree)) shifted ^= modulus;
  }
  return result;
}

function power(exponent: number, modulus: number, degree: number): number {
  let result = 1;
  // The polynomial x, which is 1 where there is no other.
  let square = degree === 1 ? 1 : 2;
  for (let rest = exponent; rest > 0; rest >>>= 1) {
    if (rest & 1) result = product(result, square, modulus, degree);
    square = product(square, square, modulus, degree);
  }
  return result;
}

const primeFactors = (of: number): number[] => {
  const factors = new Set<number>();
  for (let p = 2, rest = of; rest > 1; p += 1) for (; rest % p === 0; rest /= p) factors.add(p);
  return [...factors];
};

describe('the numbers of the sequence', () => {
  // A polynomial is primitive if x has the order 2^s - 1 modulo it (Lidl & Niederreiter, Finite Fields, theorem 3.16).
  test('are of primitive polynomials, none of them twice', () => {
    const seen = new Set<number>();
    for (const { degree, coefficients } of joeKuo) {
      const polynomial = (1 << degree) | (coefficients << 1) | 1;
      expect(seen.has(polynomial)).toBe(false);
      seen.add(polynomial);
      const order = 2 ** degree - 1;
      expect(power(order, polynomial, degree)).toBe(1);
      for (const factor of primeFactors(order))
        expect(power(order / factor, polynomial, degree), `${polynomial}`).not.toBe(1);
    }
    expect(joeKuo).toHaveLength(127);
  });

  test('are odd and below 2^k', () => {
    for (const { degree, first } of joeKuo) {
      expect(first).toHaveLength(degree);
      for (const [k, m] of first.entries()) expect(m % 2 === 1 && m < 2 ** (k + 1)).toBe(true);
    }
  });

  test('make each dimension even: one of 256 points in each of 256 equal parts', () => {
    const sequence = sobolSequence(128, 256, 14);
    const points = Array.from({ length: 256 }, (_, k) => sequence.at(k));
    for (let dimension = 0; dimension < 128; dimension += 1)
      expect(new Set(points.map((point) => Math.floor(256 * point[dimension]!))).size).toBe(256);
  });
});
