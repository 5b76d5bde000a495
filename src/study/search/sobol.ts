/**
 * Sobol's sequence (Sobol', USSR Comput. Math. Math. Phys. 7(4), 1967) in Antonov and Saleev's order: point n is, in
 * each dimension, the exclusive or of the direction numbers v_k over the bits k that are set in the Gray code of n.
 * A primitive polynomial of degree s with inner coefficients a and first odd numbers m_1 … m_s gives them by
 *
 *   m_k = 2 a_1 m_(k-1) ^ 4 a_2 m_(k-2) ^ … ^ 2^s m_(k-s) ^ m_(k-s),   v_k = m_k 2^(32-k).
 *
 * Polynomials and first numbers: Joe & Kuo 2008 (`sobol-numbers.ts`). With a seed every dimension is shifted by the exclusive or
 * with a random number, which keeps the sequence's evenness and moves its first point off the corner.
 */

import type { Sample } from './axis.ts';
import { randomSource } from './random.ts';
import { joeKuo } from './sobol-numbers.ts';

export const mostSobolDimensions = joeKuo.length + 1;
const BITS = 32;

/** The first `count` points in `dimensions`; no seed leaves the sequence as published. */
export function sobolSequence(dimensions: number, count: number, seed: number | null): Sample {
  if (dimensions > mostSobolDimensions) {
    throw new RangeError(`A Sobol sample takes at most ${mostSobolDimensions} quantities.`);
  }
  const directions = Array.from({ length: dimensions }, (_, dimension) => directionNumbers(dimension));
  const shifts = Array.from({ length: dimensions }, (_, dimension) =>
    seed === null ? 0 : randomSource(seed, dimension).bits(),
  );
  return {
    count,
    at(index) {
      return directions.map((direction, dimension) => {
        let x = shifts[dimension]!;
        let gray = (index ^ (index >>> 1)) >>> 0;
        for (let bit = 0; gray !== 0; bit += 1, gray >>>= 1) if (gray & 1) x ^= direction[bit]!;
        return (x >>> 0) / 4294967296;
      });
    },
  };
}

function directionNumbers(dimension: number): Uint32Array {
  const v = new Uint32Array(BITS);
  if (dimension === 0) {
    // Van der Corput's sequence in base 2.
    for (let k = 0; k < BITS; k += 1) v[k] = 1 << (31 - k);
    return v;
  }
  const { degree, coefficients, first } = joeKuo[dimension - 1]!;
  for (let k = 0; k < BITS; k += 1) {
    if (k < degree) {
      v[k] = first[k]! << (31 - k);
      continue;
    }
    const oldest = v[k - degree]!;
    let value = oldest ^ (oldest >>> degree);
    for (let j = 1; j < degree; j += 1) {
      if ((coefficients >> (degree - 1 - j)) & 1) value ^= v[k - j]!;
    }
    v[k] = value;
  }
  return v;
}
