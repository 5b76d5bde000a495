/**
 * Latin hypercube sample of the unit cube (McKay, Beckman & Conover, Technometrics 21, 1979): each axis is cut into as
 * many equal slices as there are points, and each slice of each axis holds one point, at a random place in it. Which
 * slice is by one random permutation an axis; four bytes for each point and axis are kept, nothing else.
 */

import type { Sample } from './axis.ts';
import { randomSource } from './random.ts';

/** `count` points in `dimensions`, the same for the same seed. */
export function latinHypercube(dimensions: number, count: number, seed: number): Sample {
  const slices = Array.from({ length: dimensions }, (_, axis) => permutation(count, seed, axis));
  return {
    count,
    at(index) {
      const places = randomSource(seed, dimensions, index);
      return slices.map((slice) => (slice[index]! + places.uniform()) / count);
    },
  };
}

/** Random order of 0 … count-1 (Fisher & Yates, as Knuth's Algorithm P). */
function permutation(count: number, seed: number, axis: number): Uint32Array {
  const random = randomSource(seed, axis);
  const order = Uint32Array.from({ length: count }, (_, index) => index);
  for (let last = count - 1; last > 0; last -= 1) {
    const other = random.below(last + 1);
    const held = order[last]!;
    order[last] = order[other]!;
    order[other] = held;
  }
  return order;
}
